"""Where the ink of engraved systems lies, as Chromium draws it, and which of it touches.

The browser is the witness: letters are measured by its own font metrics, glyphs by its boxes, curves
point by point. Units are those of the SVG (180 = a staff space).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from lickwright.model.orders import Engraved

SPACE = 180.0
"""A staff space."""
TOLERANCE = 12.0
"""Ink may come so far into other ink's box: half the weight of a stroke, and letters' boxes are corners."""
Box = tuple[float, float, float, float]
_READ = (Path(__file__).parent / "ink.js").read_text()
_THEME = Path(__file__).parents[2] / "themes" / "press"


@dataclass(frozen=True, slots=True)
class Ink:
    """One shape: a sign, a digit, a notehead with what hangs on it, a word.

    Attributes:
        kind: ``sign``, ``note``, ``harm``, ``slur`` …: the class that owns it.
        words: All its classes.
        boxes: Left, top, right, foot of each letter, glyph or piece of a line.
    """

    kind: str
    words: str
    id: str
    text: str
    boxes: tuple[Box, ...]

    @property
    def name(self) -> str:
        """What it is, for a message."""
        said = f" {self.text}" if self.text else ""
        return f"{self.words or self.kind}{said}{f' #{self.id}' if self.id else ''}"

    @property
    def box(self) -> Box:
        """Round all of it."""
        left, top, right, foot = zip(*self.boxes, strict=True)
        return min(left), min(top), max(right), max(foot)

    @property
    def digit(self) -> bool:
        """Whether it is a digit of the tab."""
        return self.kind == "note" and bool(self.text)

    @property
    def ours(self) -> bool:
        """Whether we place it: a sign, a slot's words, a digit, a chord symbol."""
        return self.kind in ("sign", "slot", "harm", "reh", "fing") or self.digit


@dataclass(frozen=True, slots=True)
class Drawn:
    """A system: its name, its frame, its ink."""

    name: str
    view: Box
    ink: tuple[Ink, ...]


def read_ink(browser: Browser, scores: Iterable[tuple[str, Engraved]]) -> list[Drawn]:
    """Open the systems of scores in a page with the site's style and read their ink."""
    style = "".join((_THEME / name).read_text() for name in ("tokens.css", "score.css"))
    body = []
    for name, made in scores:
        body.append(f'<svg width="0" height="0"><defs>{made.glyphs}</defs></svg>')
        body += [
            f'<div class="score">{system.svg.replace("<svg", f"""<svg data-system="{name} {n}" """, 1)}</div>'
            for n, system in enumerate(made.systems, 1)
        ]
    page = browser.new_page(viewport={"width": 1200, "height": 900})
    try:
        page.set_content(f"<!doctype html><style>{style}</style>{''.join(body)}")
        found = page.evaluate(_READ)
    finally:
        page.close()
    return [
        Drawn(
            system["name"],
            tuple(system["view"]),
            tuple(
                Ink(s["kind"], s["words"], s["id"], s["text"], tuple(tuple(box) for box in s["boxes"]))
                for s in system["shapes"]
            ),
        )
        for system in found
    ]


@dataclass(frozen=True, slots=True)
class Clash:
    """Two shapes that touch, and by how much (the shorter side of the largest common box)."""

    system: str
    one: Ink
    other: Ink
    depth: float

    def __str__(self) -> str:
        return f"{self.system}: {self.one.name} × {self.other.name} ({self.depth:.0f})"


_MEANT = frozenset({
    frozenset(pair) for pair in (
        ("slur", "slide"), ("slur", "bent-line"), ("slur", "slur"), ("slur", "stem"), ("tie", "bent-line"),
        ("bend", "hold"), ("bend", "release"), ("prebend", "hold"), ("prebend", "release"),
        ("hold", "release"), ("bend", "bend"), ("tremolo", "stem"), ("bent-line", "bent-line"),
    )
})  # fmt: skip
"""Lines that meet by convention: a slur over its slide, a bend that goes on in its hold."""


def clashes(system: Drawn) -> Iterator[Clash]:
    """Yield what touches in a system where at least one of the two is placed by us."""
    shapes = [ink for ink in system.ink if "mark" not in ink.words.split()]
    boxes = [ink.box for ink in shapes]
    for (one, box), (other, box2) in combinations(zip(shapes, boxes, strict=True), 2):
        if not (one.ours or other.ours) or _depth(box, box2) <= TOLERANCE:
            continue
        if frozenset((_kind(one), _kind(other))) in _MEANT or (
            _kind(one) == _kind(other) and _kind(one) in _TWINS
        ):
            continue
        depth = max(_depth(a, b) for a in one.boxes for b in other.boxes)
        if depth > TOLERANCE:
            yield Clash(system.name, one, other, depth)


_TWINS = frozenset({"bend", "bent-line", "slur"})


def _kind(ink: Ink) -> str:
    words = ink.words.split()
    return words[words.index("sign") + 1] if "sign" in words else ink.kind


def _depth(one: Box, other: Box) -> float:
    """How deep two boxes are in each other; negative when apart."""
    return min(min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1]))
