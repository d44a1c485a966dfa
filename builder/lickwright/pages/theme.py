"""The theme: templates and assets, ours with the author's own files put over them.

An author's ``theme/`` folder replaces file by file: ``theme/templates/lesson.html`` that template,
``theme/tokens.css`` that sheet; a further sheet of any name is put last. Templates run in a
sandbox with escaping always on, so text can become markup nowhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jinja2 import DictLoader, StrictUndefined
from jinja2.sandbox import ImmutableSandboxedEnvironment

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

SHEETS = ("tokens.css", "page.css", "score.css", "proof.css", "print.css")
"""In the order in which they are laid over each other; print is always the last of ours."""
SCRIPTS = ("time.js", "sound.js", "bars.js", "player.js")
"""What a page with music runs, in this order; ``light.js`` comes before them on every page."""


@dataclass(frozen=True, slots=True)
class Theme:
    """Templates and assets, read.

    Attributes:
        templates: Text by name.
        assets: Sheets and scripts by name, for the site's ``theme/`` folder.
    """

    templates: Mapping[str, str]
    assets: Mapping[str, bytes]
    _environment: ImmutableSandboxedEnvironment = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        environment = ImmutableSandboxedEnvironment(
            loader=DictLoader(self.templates),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        object.__setattr__(self, "_environment", environment)

    @property
    def sheets(self) -> tuple[str, ...]:
        """The style sheets in the order to be linked, an author's own last."""
        further = sorted(name for name in self.assets if name.endswith(".css") and name not in SHEETS)
        return (*SHEETS, *further)

    def render(self, template: str, **context: Any) -> str:
        """Return a page."""
        return self._environment.get_template(template).render(**context)

    def macro(self, template: str, name: str, value: object) -> str:
        """Return what one macro of a template makes of a value."""
        return str(getattr(self._environment.get_template(template).module, name)(value))


def read_theme(author: Path | None = None, name: str = "press") -> Theme:
    """Read one of our themes, with an author's own folder over it.

    Args:
        author: The course's ``theme`` folder; one that does not exist changes nothing.
        name: A folder of ``themes``.

    Raises:
        FileNotFoundError: When we have no such theme.
    """
    folder = _themes() / name
    if not folder.is_dir():
        raise FileNotFoundError(name)
    templates: dict[str, str] = {}
    assets: dict[str, bytes] = {}
    for layer in (folder, author):
        if layer is None or not layer.is_dir():
            continue
        assets.update((f.name, f.read_bytes()) for f in _files(layer) if f.name.endswith((".css", ".js")))
        inner = layer / "templates"
        if inner.is_dir():
            templates.update((f.name, f.read_text(encoding="utf-8")) for f in _files(inner))
    return Theme(templates, dict(sorted(assets.items())))


def _themes() -> Traversable:
    """Inside the wheel beside the package's modules, in the repository at its root."""
    packed = files("lickwright") / "themes"
    return packed if packed.is_dir() else Path(__file__).parents[3] / "themes"


def _files(folder: Traversable) -> list[Traversable]:
    return sorted((entry for entry in folder.iterdir() if entry.is_file()), key=lambda entry: entry.name)
