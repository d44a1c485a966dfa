"""The theme: templates and assets, ours with the author's own files put over them.

An author's ``theme/`` folder replaces file by file: ``theme/templates/lesson.html`` that template,
``theme/tokens.css`` that sheet; a further sheet of any name is put last. Scripts are ours alone: a
course brings words, music and looks, nothing that runs at a student's. Templates run in a
sandbox with escaping always on, so text can become markup nowhere.
"""

from __future__ import annotations

import traceback
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jinja2 import FunctionLoader, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

SHEETS = ("tokens.css", "page.css", "score.css", "proof.css", "print.css")
"""In the order in which they are laid over each other; print is always the last of ours."""
SCRIPTS = ("time.js", "sound.js", "bars.js", "player.js", "views.js")
"""What a page with music runs, in this order; ``light.js`` comes before them on every page."""
SHEET_SCRIPTS = ("time.js", "sound.js", "proof.js")
"""What the proof sheet runs: the same sound, no player."""
_OWN = "theme/templates/"
"""Where an author's own templates lie in a course; begins their names in tracebacks."""


class ThemeError(ValueError):
    """A template of an author's own cannot be used; says which, where and why."""


@dataclass(frozen=True, slots=True)
class Theme:
    """Templates and assets, read.

    Attributes:
        templates: Text by name.
        assets: Sheets and scripts by name, for the site's ``theme/`` folder.
        own: Names of the templates that are an author's.
    """

    templates: Mapping[str, str]
    assets: Mapping[str, bytes]
    own: frozenset[str] = frozenset()
    _environment: ImmutableSandboxedEnvironment = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        environment = ImmutableSandboxedEnvironment(
            loader=FunctionLoader(self._source),
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
        """Return a page.

        Raises:
            ThemeError: A template of the author's is to blame.
        """
        with self._blamed():
            return self._environment.get_template(template).render(**context)

    def macro(self, template: str, name: str, value: object) -> str:
        """Return what one macro of a template makes of a value; raises as ``render`` does."""
        with self._blamed():
            return str(getattr(self._environment.get_template(template).module, name)(value))

    def compile(self) -> None:
        """Compile the author's own templates, so that a slip in one is told before any work."""
        with self._blamed():
            for name in sorted(self.own):
                self._environment.get_template(name)

    def _source(self, name: str) -> tuple[str, str, None] | None:
        text = self.templates.get(name)
        return None if text is None else (text, f"{_OWN if name in self.own else ''}{name}", None)

    @contextmanager
    def _blamed(self) -> Iterator[None]:
        """Tell a fault in a template of the author's from one of ours."""
        try:
            yield
        except TemplateSyntaxError as error:
            if error.name not in self.own:
                raise
            raise ThemeError(f"{_OWN}{error.name}, line {error.lineno}: {error.message}") from error
        except Exception as error:
            frames = traceback.extract_tb(error.__traceback__)
            own = [frame for frame in frames if frame.filename.startswith(_OWN)]
            if not own or not (isinstance(error, TemplateError) or frames[-1] is own[-1]):
                raise
            raise ThemeError(f"{own[-1].filename}, line {own[-1].lineno}: {error}") from error


def read_theme(author: Path | None = None, name: str = "press") -> Theme:
    """Read one of our themes, with an author's own folder over it.

    Args:
        author: The course's ``theme`` folder; one that does not exist changes nothing.
        name: A folder of ``themes``.

    Raises:
        FileNotFoundError: When we have no such theme.
        ThemeError: A template of the author's is not UTF-8 text or not a template.
    """
    folder = _themes() / name
    if not folder.is_dir():
        raise FileNotFoundError(name)
    templates = {f.name: f.read_text(encoding="utf-8") for f in _files(folder / "templates")}
    assets = {f.name: f.read_bytes() for f in _files(folder) if f.name.endswith((".css", ".js"))}
    own: dict[str, str] = {}
    if author is not None and author.is_dir():
        assets |= {f.name: f.read_bytes() for f in _files(author) if f.name.endswith(".css")}
        if (author / "templates").is_dir():
            own = {f.name: _text(f) for f in _files(author / "templates")}
    theme = Theme(templates | own, dict(sorted(assets.items())), frozenset(own))
    theme.compile()
    return theme


def _text(file: Traversable) -> str:
    body = file.read_bytes()
    try:
        return body.decode().replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = body.count(b"\n", 0, error.start) + 1
        raise ThemeError(f"{_OWN}{file.name}, line {line}: the file is not UTF-8 text") from None


def _themes() -> Traversable:
    """Inside the wheel beside the package's modules, in the repository at its root."""
    packed = files("lickwright") / "themes"
    return packed if packed.is_dir() else Path(__file__).parents[3] / "themes"


def _files(folder: Traversable) -> list[Traversable]:
    return sorted((entry for entry in folder.iterdir() if entry.is_file()), key=lambda entry: entry.name)
