"""A score as Verovio drew it: where its notes and slots are, and new strokes on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lxml import etree

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from lickwright.engraving.signs import Sign

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
    """

    x: float
    y: float
    half: float
    size: float
    system: int


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a slot: their element, start, first baseline, size."""

    element: etree._Element
    x: float
    y: float
    size: float
    system: int


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a sign in one system.

    Attributes:
        slot: The slot that keeps its height.
        left, right: Where it begins and ends.
        begins, ends: Whether the sign itself does so here.
    """

    slot: Words
    left: float
    right: float
    begins: bool
    ends: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """A system: its element, the first note's place, the right edge, the top line of its lowest staff."""

    element: etree._Element
    left: float
    right: float
    top: float


class Canvas:
    """The elements of all systems by id; ``bars`` say in which bar, ``ends`` where each bar line is.

    ``spans`` are the further pieces of what is parted by a line break, by the id of the first.
    """

    def __init__(self, systems: Iterable[etree._Element]) -> None:
        self.elements: dict[str, tuple[etree._Element, int]] = {}
        self.bars: dict[str, int] = {}
        self.ends: list[float] = []
        self.frames: list[Frame] = []
        self.spans: dict[str, list[tuple[etree._Element, int]]] = {}
        self._alive: list[list[etree._Element]] = []  # so that lxml makes its handles once
        for index, system in enumerate(systems):
            groups = list(system.iter("g"))
            self._alive.append(groups)
            left, right, first = float("inf"), 0.0, len(self.ends) + 1
            for element in groups:
                local = element.get("id")
                if local is not None:
                    self.elements[local] = (element, index)
                    self.bars[local] = len(self.ends)
                kind = element.get("class", "")
                if kind.endswith("spanning"):
                    self.spans.setdefault(kind.split()[1].removeprefix("id-"), []).append((element, index))
                if kind == "staff":
                    right = max(right, _ends(element.findall("path")[-1]))
                elif kind == "measure":
                    self.ends.append(_bar_line(element))
                elif kind in ("note", "rest", "mRest") and len(self.ends) == first:
                    place = _place(element)
                    left = min(left, place) if place is not None else left
            measure = system.find("g[@class='measure']")
            staves = [] if measure is None else measure.findall("g[@class='staff']")
            line = staves[-1].find("path") if staves else None
            top = float(_NUMBER.findall(line.get("d", "0 0"))[1]) if line is not None else 0.0
            self.frames.append(Frame(system, left - 60, right, top))

    def anchor(self, local: str) -> Anchor | None:
        """The middle of a digit (``t…``) or notehead (``s…``); ``None`` when it is not drawn."""
        found = self.elements.get(local)
        if found is None:
            return None
        element, system = found
        if local[0] == "t":
            words = element.find("text")
            figure = words.find("tspan") if words is not None else None
            if words is None or figure is None:
                return None
            size = float(figure.get("font-size", "0").removesuffix("px"))
            x, y = float(words.get("x", "0")), float(words.get("y", "0"))
            return Anchor(x, y - 0.34 * size, width(figure.text or "", size) / 2, size, system)
        use = element.find("g[@class='notehead']/use")
        if use is None:
            return None
        x, y, scale = (float(n) for n in _NUMBER.findall(use.get("transform", ""))[:3])
        half = HEAD_HALF * scale / 0.72
        return Anchor(x + half, y, half, 240, system)

    def near(self, local: str) -> Anchor | None:
        """The anchor of a note on either staff: a tied note has no digit."""
        return self.anchor(local) or self.anchor({"t": "s", "s": "t"}.get(local[:1], "") + local[1:])

    def bar_end(self, local: str) -> float:
        """Place of the bar line after a note."""
        twin = {"t": "s", "s": "t"}.get(local[:1], "") + local[1:]
        number = self.bars.get(local) or self.bars.get(twin) or 1
        return self.ends[number - 1]

    def inside_bar(self, local: str, x: float, half: float) -> float:
        """Return where words of half a width, wanted at ``x`` over a note, are clear of its bar's lines."""
        twin = {"t": "s", "s": "t"}.get(local[:1], "") + local[1:]
        number = self.bars.get(local) or self.bars.get(twin) or 1
        at = self.near(local)
        before = self.ends[number - 2] if number > 1 else 0.0
        if at is not None and number > 1 and before < at.x:
            x = max(x, before + half + _BAR_LINE)
        return min(x, self.ends[number - 1] - half - _BAR_LINE)

    def words(self, slot: str) -> Words | None:
        """The words of a slot."""
        found = self.elements.get(slot)
        if found is None:
            return None
        element, system = found
        line = element.find("text")
        sizes = [span.get("font-size", "0") for span in element.iter("tspan") if span.get("font-size")]
        if line is None or not sizes:
            return None
        size = float(sizes[-1].removesuffix("px"))
        return Words(line, float(line.get("x", "0")), float(line.get("y", "0")), size, system)

    def group(self, system: int, kind: str) -> etree._Element:
        """A new group of strokes in a system."""
        group = etree.SubElement(self.frames[system].element, "g")
        group.set("class", f"sign {kind}")
        return group

    def runs(self, sign: Sign, *, after: float = 0.0) -> Iterator[Run]:
        """The stretches of a sign from its start to its end, one a system.

        Args:
            sign: Its slots lie in every bar that it passes.
            after: How far it reaches beyond the end's middle.
        """
        start, end = self.near(sign.start), self.near(sign.end or sign.start)
        if start is None or end is None:
            return
        seen: set[int] = set()
        for slot in sign.slots:
            words = self.words(slot)
            if words is None:
                continue
            if words.system in seen:
                blank(words)
                continue
            seen.add(words.system)
            frame = self.frames[words.system]
            begins, ends = words.system == start.system, words.system == end.system
            left = start.x - start.half if begins else frame.left
            yield Run(words, left, end.x + after if ends else frame.right - 60, begins, ends)


def width(words: str, size: float) -> float:
    """Return the width of words in the text face (Times metrics, from memory), in units."""
    return size * sum(_WIDTHS.get(char, 0.5) for char in words)


_WIDTHS = (
    dict.fromkeys("ilt.,' \u00a0|", 0.28)
    | dict.fromkeys("()⟨⟩fr-I", 0.34)
    | dict.fromkeys("ABCDEFGHKLNPRTVX", 0.68)
    | dict.fromkeys("mM½¼¾", 0.78)
)  # fmt: skip


def extent(words: etree._Element) -> tuple[float, float, float, float] | None:
    """Return left, right, top and foot of a text's first line; ``None`` when nothing is said."""
    said = "".join(str(part) for part in words.itertext()).strip()
    sizes = [span.get("font-size", "0px") for span in words.iter("text", "tspan")]
    size = max((float(size.removesuffix("px")) for size in sizes if size), default=0.0)
    if not said or not size:
        return None
    x, y, wide = float(words.get("x", "0")), float(words.get("y", "0")), width(said, size)
    left = x - wide / 2 if words.get("text-anchor") == "middle" else x
    return left, left + wide, y - 0.75 * size, y + 0.22 * size


def lower(words: Words, by: float) -> None:
    """Move the words of a slot down."""
    for part in words.element.iter("text", "tspan"):
        if part.get("y"):
            part.set("y", f"{float(part.get('y', '0')) + by:.0f}")


def blank(words: Words) -> None:
    """Take the words of a slot away; its room stays."""
    parent = words.element.getparent()
    if parent is not None:
        parent.remove(words.element)


def move(words: Words, x: float) -> None:
    """Centre the words of a slot on ``x``; further lines were only room."""
    words.element.set("x", f"{x:.0f}")
    words.element.set("text-anchor", "middle")
    for span in words.element.iter("tspan"):
        if span.get("x"):
            span.set("x", f"{x:.0f}")


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
    return min((float(_NUMBER.findall(path.get("d", "0"))[0]) for path in paths), default=0.0)


def _ends(path: etree._Element) -> float:
    numbers = _NUMBER.findall(path.get("d", "0 0"))
    return float(numbers[-2])


def _place(element: etree._Element) -> float | None:
    for part in element.iter("use", "text"):
        if part.tag == "text":
            return float(part.get("x", "0")) - 90
        return float(_NUMBER.findall(part.get("transform", "0"))[0])
    return None
