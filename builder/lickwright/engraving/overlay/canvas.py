"""A score as Verovio drew it: where its notes are, what ink there is, and new strokes and words on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.overlay.figures import figure_size, figure_width
from lickwright.engraving.overlay.ink import heights, path_boxes, read_ink, width
from lickwright.engraving.overlay.rows import Wish
from lickwright.engraving.tag import printable

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from lickwright.engraving.overlay.ink import Box, Ink

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_BAR_LINE = 70.0
"""How near words may come to a bar line."""
HEAD_HALF = 108.0
"""Half the width of a notehead."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """The middle of a digit or notehead.

    Attributes:
        x, y: Its centre.
        half: Half its width.
        size: Font size of a digit; four thirds of a staff space for a head.
        system: Index of its system.
        staff: Letter of its staff.
        bar: Number of its bar among all that are drawn, from 1.
    """

    x: float
    y: float
    half: float
    size: float
    system: int
    staff: str
    bar: int


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a sign in one system.

    Attributes:
        left, right: Where it begins and ends.
        begins, ends: Whether the sign itself does so here.
    """

    system: int
    left: float
    right: float
    begins: bool
    ends: bool


@dataclass(slots=True)
class Frame:
    """A system: its element, the first note's place, the right edge; how high and low its ink reaches."""

    element: etree._Element
    left: float
    right: float
    top: float = 0.0
    foot: float = 0.0


@dataclass(slots=True)
class Tip:
    """The tip of a bend's arrow.

    Attributes:
        top: Its height, once drawn.
        storey: How many bends of the same stroke lie under it.
        held: Up to where it is held, by system.
    """

    system: int
    x: float
    storey: int
    held: dict[int, float]
    top: float = 0.0


class Canvas:
    """The elements of all systems by id.

    Attributes:
        names: Letters of the staves from the top.
        elements: Each with the index of its system; ``bars`` say in which bar, ``ends`` where each bar
            line is.
        inks: Of every system, by the letter of the staff; read when all digits are as they stay.
        wishes: Signs that wait for their height.
        tips: Of bends, by the key of their sign.
        drawn: Groups of signs by system and staff.
    """

    def __init__(self, systems: Iterable[etree._Element], names: str = "st") -> None:
        self.names = names
        self.elements: dict[str, tuple[etree._Element, int]] = {}
        self.bars: dict[str, int] = {}
        self.ends: list[float] = []
        self.measures: list[etree._Element] = []
        self.frames: list[Frame] = []
        self.inks: list[dict[str, Ink]] = []
        self.wishes: list[Wish] = []
        self.tips: dict[str, Tip] = {}
        self.drawn: dict[tuple[int, str], list[etree._Element]] = {}
        self._near: dict[str, Anchor | None] = {}
        self._alive: list[list[etree._Element]] = []  # so that lxml makes its handles once
        for index, system in enumerate(systems):
            groups = list(system.iter("g"))
            self._alive.append(groups)
            left, right, first = float("inf"), 0.0, len(self.ends) + 1
            for element in groups:
                kind = element.get("class", "")
                if kind == "staff":
                    right = max(right, _ends(element.findall("path")[-1]))
                elif kind == "measure":
                    self.ends.append(_bar_line(element))
                    self.measures.append(element)
                elif kind in ("note", "rest", "mRest") and len(self.ends) == first:
                    place = _place(element)
                    left = min(left, place) if place is not None else left
                local = element.get("id")
                if local is not None:
                    self.elements[local] = (element, index)
                    self.bars[local] = len(self.ends)
            self.frames.append(Frame(system, left - 60, right))

    def read(self, glyphs: Mapping[str, str]) -> None:
        """Read the ink of every system."""
        self.inks = [read_ink(frame.element, glyphs, self.names) for frame in self.frames]

    def anchor(self, local: str) -> Anchor | None:
        """The middle of a digit (``t…``) or notehead (``s…``); ``None`` when it is not drawn."""
        found = self.elements.get(local)
        if found is None:
            return None
        element, system = found
        place = (system, local[0], self.bars[local])
        if local[0] == "t":
            words = element.find("text")
            size = figure_size(words) if words is not None else 0.0
            if words is None or not size:
                return None
            x, y = float(words.get("x", "0")), float(words.get("y", "0"))
            return Anchor(x, y - 0.34 * size, figure_width(words) / 2, size, *place)
        use = element.find("g[@class='notehead']/use")
        if use is None:
            return None
        x, y, scale = (float(n) for n in _NUMBER.findall(use.get("transform", ""))[:3])
        half = HEAD_HALF * scale / 0.72
        return Anchor(x + half, y, half, 240, *place)

    def near(self, local: str) -> Anchor | None:
        """The anchor of a note on either staff: a tied note has no digit."""
        if local not in self._near:
            self._near[local] = self._either(local)
        return self._near[local]

    def _either(self, local: str) -> Anchor | None:
        return self.anchor(local) or self.anchor({"t": "s", "s": "t"}.get(local[:1], "") + local[1:])

    def ink(self, at: Anchor, staff: str = "") -> Ink:
        """The ink of the staff of a note."""
        return self.inks[at.system][staff or at.staff]

    def bar_end(self, at: Anchor) -> float:
        """Place of the bar line after a note."""
        return self.ends[at.bar - 1]

    def first_place(self, bar: int) -> float:
        """Where the first note of a bar (from 1) stands."""
        found = [_place(g) for g in self.measures[bar - 1].iter("g") if g.get("class") in _NOTES]
        return min((x for x in found if x is not None), default=self.ends[bar - 1] - 400)

    def inside_bar(self, at: Anchor, x: float, half: float) -> float:
        """Return where words of half a width, wanted at ``x`` over a note, are clear of its bar's lines."""
        before = self.ends[at.bar - 2] if at.bar > 1 else 0.0
        if before < at.x:
            x = max(x, before + half + _BAR_LINE)
        return min(x, self.ends[at.bar - 1] - half - _BAR_LINE)

    def group(self, system: int, staff: str, kind: str) -> etree._Element:
        """A new group of strokes in a system, at a staff."""
        group = etree.SubElement(self.frames[system].element, "g")
        group.set("class", kind if kind == "slur" else f"sign {kind}")
        self.drawn.setdefault((system, staff), []).append(group)
        return group

    def wish(
        self,
        at: Anchor | tuple[int, str],
        row: str,
        boxes: Iterable[Box],
        draw: Callable[[float], None],
        *,
        under: bool = False,
        fixed: bool = False,
    ) -> None:
        """Have a sign drawn in a row of a staff, at whichever height is free for its boxes."""
        system, staff = at if isinstance(at, tuple) else (at.system, at.staff)
        self.wishes.append(Wish(system, staff, row, tuple(boxes), draw, under, fixed))

    def lay(
        self, system: int, staff: str, group: etree._Element, path: str, weight: int, *, filled: bool = False
    ) -> None:
        """Draw a stroke of absolute commands where it must be, and note its ink."""
        stroke(group, path, weight=weight)
        if filled:
            del group[-1].attrib["fill"]
        self.inks[system][staff].add(*path_boxes(path, weight))

    def word(
        self,
        at: tuple[int, str, int],
        kind: str,
        x: float,
        y: float,
        words: str,
        size: float,
        style: str = "",
        *,
        more: bool = False,
    ) -> None:
        """Write a line of words in a bar.

        Args:
            at: System, staff, number of the bar.
            kind: Becomes their class.
            x: The middle of their baseline.
            y: Its height.
            words: An author's, perhaps.
            size: Of the letters.
            style: ``italic``, ``start`` = from ``x`` on; parted by a blank.
            more: Whether it is one more line of the words written last.
        """
        system, staff, bar = at
        if more:
            group = self.measures[bar - 1][-1]
        else:
            group = etree.SubElement(self.measures[bar - 1], "g")
            group.set("class", kind if kind == "reh" else f"dir slot {kind}")
            self.drawn.setdefault((system, staff), []).append(group)
        line = etree.SubElement(group, "text")
        line.set("x", f"{x:.0f}")
        line.set("y", f"{y:.0f}")
        line.set("text-anchor", "start" if "start" in style else "middle")
        line.set("font-size", f"{size:.0f}px")
        if "italic" in style:
            line.set("font-style", "italic")
        line.text = printable(words)

    def runs(self, start: Anchor, end: Anchor, *, after: float = 0.0) -> Iterator[Run]:
        """The stretches of a sign from one note to another, one a system.

        Args:
            start: The note.
            end: The other.
            after: How far it reaches beyond the end's middle.
        """
        for system in range(start.system, end.system + 1):
            frame = self.frames[system]
            begins, ends = system == start.system, system == end.system
            left = start.x - start.half if begins else frame.left
            yield Run(system, left, end.x + after if ends else frame.right - 60, begins, ends)

    def first_bar(self, system: int) -> int:
        """Number of the first bar of a system, from 1."""
        measure = self.frames[system].element.find("g[@class='measure']")
        return self.measures.index(measure) + 1 if measure is not None else 1


_NOTES = frozenset({"note", "rest", "mRest"})


def word_box(x: float, words: str, size: float, *, start: bool = False, y: float = 0.0) -> Box:
    """Return the box of words on a baseline, centred on ``x`` or from there on."""
    wide = width(words, size)
    left = x if start else x - wide / 2
    top, foot = heights(words, size, y)
    return left, top, left + wide, foot


def stroke(
    group: etree._Element, path: str, *, weight: int = 22, dash: str | None = None, filled: bool = False
) -> None:
    """Add a path to a group."""
    element = etree.SubElement(group, "path")
    element.set("d", path)
    if filled:
        return
    element.set("fill", "none")
    element.set("stroke-width", str(weight))
    element.set("stroke-linecap", "round")
    element.set("stroke-linejoin", "round")
    if dash:
        element.set("stroke-dasharray", dash)


def _bar_line(measure: etree._Element) -> float:
    lines = measure.findall("g[@class='barLine']")
    paths = lines[-1].findall("path") if lines else []
    if not paths:  # an invisible one
        return _ends(measure.findall("g[@class='staff']/path")[-1])
    return min(float(_NUMBER.findall(path.get("d", "0"))[0]) for path in paths)


def _ends(path: etree._Element) -> float:
    numbers = _NUMBER.findall(path.get("d", "0 0"))
    return float(numbers[-2])


def _place(element: etree._Element) -> float | None:
    for part in element.iter("use", "text"):
        if part.tag == "text":
            return float(part.get("x", "0")) - 90
        return float(_NUMBER.findall(part.get("transform", "0"))[0])
    return None
