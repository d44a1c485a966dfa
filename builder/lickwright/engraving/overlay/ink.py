"""What ink lies where in a system, and the nearest free height beside a staff.

One :class:`Ink` holds the boxes of a staff and of all that belongs to it: Verovio's, read from the SVG,
and each sign's as it is drawn. A sign is put at the height that :meth:`Ink.clear` finds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping

    from lxml import etree

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_UPRIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L\1 (-?[\d.]+)\Z")
_STEP = re.compile(r"([a-zA-Z])([^a-zA-Z]*)")
_COLUMN = 400.0
"""Boxes are looked up by columns of this width."""
_SLICE = 120.0
"""Curves and leaning strokes are boxed in pieces of this width."""
GAP = 44.0
"""Room between a sign and other ink: a quarter of a staff space (own threshold)."""
_LAID = frozenset({"harm", "reh", "barLine", "voltaBracket"})
"""Groups that are set anew over all others, or stand in both staves."""

Box = tuple[float, float, float, float]
"""Left, top, right, foot."""


@dataclass(slots=True)
class Ink:
    """The ink of one staff of a system.

    Attributes:
        top, foot: Of the staff's lines.
        boxes: Of all that is drawn at it.
    """

    top: float
    foot: float
    boxes: list[Box] = field(default_factory=list)
    _columns: dict[int, list[Box]] = field(default_factory=dict)

    def add(self, *boxes: Box) -> None:
        """Put ink there."""
        self.boxes += boxes
        for box in boxes:
            for column in range(int(box[0] // _COLUMN), int(box[2] // _COLUMN) + 1):
                self._columns.setdefault(column, []).append(box)

    def near(self, left: float, right: float) -> list[Box]:
        """Boxes that reach into a stretch, some of them more than once."""
        found: list[Box] = []
        for column in range(int(left // _COLUMN), int(right // _COLUMN) + 1):
            found += self._columns.get(column, ())
        return [box for box in found if box[0] < right and box[2] > left]

    def clear(self, wanted: Iterable[Box], *, under: bool = False, gap: float = GAP) -> float:
        """Return how far boxes must be moved up (down when ``under``) to be free of all ink; 0 or more.

        Args:
            wanted: Where they would stand.
            under: Whether they move down.
            gap: Room round them.
        """
        shift = 0.0
        pairs = [(box, b) for box in wanted for b in self.near(box[0] - gap, box[2] + gap)]
        if under:
            pairs = [((a, -d, c, -b), (e, -h, g, -f)) for (a, b, c, d), (e, f, g, h) in pairs]
        pairs.sort(key=lambda pair: pair[0][3] - pair[1][1])  # by how far the one sends the other up
        for (_, top, _, foot), other in pairs:
            if other[1] < foot - shift + gap and other[3] > top - shift - gap:
                shift = foot - other[1] + gap
        return shift

    def meets(self, boxes: Iterable[Box], gap: float = 0.0) -> int:
        """Return how many of some boxes touch ink."""
        wanted = [(a - gap, b - gap, c + gap, d + gap) for a, b, c, d in boxes]
        near = self.near(min(box[0] for box in wanted), max(box[2] for box in wanted))
        return touching(wanted, near)

    def beside(self, x: float, y: float, way: int, *, reach: float, near: float = 0.0) -> tuple[float, float]:
        """Return where what stands with a note ends beside it, and where the next ink begins.

        Args:
            x: The note's own edge.
            y: Its height.
            way: -1 = to the left, 1 = to the right.
            reach: How far to look.
            near: Ink so near belongs to the note: its accidental, its dot.
        """
        level = [b for b in self.boxes if b[1] < y + 90 and b[3] > y - 90]
        edges = sorted((way * b[0], way * b[2]) if way > 0 else (-b[2], -b[0]) for b in level)
        at, end = way * x, way * x + reach
        for start, stop in edges:
            if stop <= at + 1:
                continue
            if start <= at + near:
                at = max(at, stop)
                end = at + reach
            else:
                end = min(end, start)
                break
        return way * at, way * end


def touching(boxes: Iterable[Box], others: Collection[Box]) -> int:
    """Return how many boxes touch any of some others."""
    return sum(
        any(b[0] < right and b[2] > left and b[1] < foot and b[3] > top for b in others)
        for left, top, right, foot in boxes
    )


def read_ink(system: etree._Element, glyphs: Mapping[str, str], names: str) -> dict[str, Ink]:
    """Return the ink of a system as Verovio drew it, by the letter of its staff.

    Args:
        system: Its group.
        glyphs: Outlines by code point.
        names: Letters of its staves from the top: ``st``, ``s`` or ``t``.
    """
    found: dict[str, Ink] = {}
    others: list[etree._Element] = []
    for part in system:
        kind = part.get("class", "")
        if kind.endswith("spanning"):
            others.append(part)
        if kind != "measure":
            continue
        staves = iter(names)
        for group in part:
            kind = group.get("class", "")
            if kind == "staff":
                name = next(staves)
                lines = [float(_NUMBER.findall(p.get("d", "0 0"))[1]) for p in group.findall("path")]
                found.setdefault(name, Ink(min(lines), max(lines))).add(*_boxes(group, glyphs))
            elif kind.partition(" ")[0] not in _LAID:
                others.append(group)
    for group in others:
        found[names[0]].add(*_boxes(group, glyphs))
    return found


def _boxes(group: etree._Element, glyphs: Mapping[str, str]) -> Iterator[Box]:
    lines = group.get("class") == "staff"
    for part in group.iter("use", "path", "polygon", "text", "ellipse"):
        if part.tag == "use":
            x, y, scale = (float(n) for n in _NUMBER.findall(part.get("transform", ""))[:3])
            left, top, right, foot = glyph_box(glyphs[part.get("href", "#")[1:].partition("-")[0]])
            yield x + scale * left, y + scale * top, x + scale * right, y + scale * foot
        elif part.tag == "text":
            if box := extent(part):
                yield box
        elif part.tag == "ellipse":  # a dot
            x, y, wide, tall = (float(part.get(name, "0")) for name in ("cx", "cy", "rx", "ry"))
            yield x - wide, y - tall, x + wide, y + tall
        elif part.tag == "polygon":
            yield from _of_beam([float(n) for n in _NUMBER.findall(part.get("points", ""))])
        elif not (lines and part.getparent() is group):
            data, weight = part.get("d", ""), float(part.get("stroke-width", "0"))
            if found := _UPRIGHT.match(data):  # a stem, most often
                x, half, ends = float(found[1]), weight / 2, (float(found[2]), float(found[3]))
                yield x - half, min(ends), x + half, max(ends)
            else:
                yield from path_boxes(data, weight)


def path_boxes(data: str, weight: float) -> Iterator[Box]:
    """Boxes of a stroke or a slur, in pieces; of absolute ``M``, ``L``, ``H``, ``V`` and ``C`` alone."""
    half = weight / 2
    x = y = 0.0
    for command, rest in _STEP.findall(data):
        numbers = [float(n) for n in _NUMBER.findall(rest)]
        if command == "M":
            x, y = numbers[:2]
        elif command == "C":
            points = [(x, y), *zip(numbers[::2], numbers[1::2], strict=True)]
            yield from chain_boxes(bezier(points, 9), half)
            x, y = points[-1]
        elif command in "LHV":
            to = (numbers[0] if command != "V" else x, numbers[-1] if command != "H" else y)
            count = 1 if x == to[0] or y == to[1] else max(1, round(abs(to[0] - x) / _SLICE))
            steps = [(x + (to[0] - x) * k / count, y + (to[1] - y) * k / count) for k in range(count + 1)]
            yield from chain_boxes(steps, half)
            x, y = to


def bezier(points: list[tuple[float, float]], count: int) -> list[tuple[float, float]]:
    """Return points along a cubic curve."""
    (a, b), (c, d), (e, f), (g, h) = points
    made = []
    for k in range(count + 1):
        t = k / count
        s = 1 - t
        p, q, r, w = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        made.append((p * a + q * c + r * e + w * g, p * b + q * d + r * f + w * h))
    return made


def chain_boxes(points: list[tuple[float, float]], half: float) -> Iterator[Box]:
    """Boxes from each point to the next."""
    for (x, y), (x2, y2) in pairwise(points):
        yield min(x, x2) - half, min(y, y2) - half, max(x, x2) + half, max(y, y2) + half


def _of_beam(numbers: list[float]) -> Iterator[Box]:
    """A leaning bar cut upright: its corners are upper left, upper right, lower right, lower left."""
    left, high, right, high2, _, low2, _, low = numbers[:8]
    count = max(1, round((right - left) / _SLICE))
    for k in range(count):
        part, after = k / count, (k + 1) / count
        tops = [high + (high2 - high) * t for t in (part, after)]
        feet = [low + (low2 - low) * t for t in (part, after)]
        yield (
            left + (right - left) * part,
            min(*tops, *feet),
            left + (right - left) * after,
            max(*tops, *feet),
        )


@lru_cache(maxsize=512)
def glyph_box(outline: str) -> Box:
    """Return the box round the points of an outline, in the font's units, downwards from its place."""
    x = y = 0.0
    start = (0.0, 0.0)
    xs: list[float] = []
    ys: list[float] = []
    data = outline.partition(' d="')[2].partition('"')[0]
    for command, rest in _STEP.findall(data):
        numbers = [float(n) for n in _NUMBER.findall(rest)]
        lead = command.islower()
        if command in "hH":
            x = numbers[-1] + (x if lead else 0)
        elif command in "vV":
            y = numbers[-1] + (y if lead else 0)
        elif command in "zZ":
            x, y = start
            continue
        else:
            size = {"C": 6, "S": 4, "Q": 4}.get(command.upper(), 2)
            for at in range(0, len(numbers), size):
                points = numbers[at : at + size]
                if lead:
                    points = [n + (x, y)[k % 2] for k, n in enumerate(points)]
                xs += points[::2]
                ys += points[1::2]
                x, y = points[-2:]
            if command in "mM":
                start = (xs[-1], ys[-1])
        xs.append(x)
        ys.append(y)
    return (min(xs), -max(ys), max(xs), -min(ys)) if xs else (0.0, 0.0, 0.0, 0.0)


def width(words: str, size: float) -> float:
    """Return the width of words in the text face (Times metrics, from memory), in units."""
    return size * sum(_WIDTHS.get(char, 0.5) for char in words)


_WIDTHS = (
    dict.fromkeys("ilt.,' \u00a0|/", 0.28)
    | dict.fromkeys("()⟨⟩fr-I", 0.34)
    | dict.fromkeys("ABCDEFGHKLNPRTVX", 0.7)
    | dict.fromkeys("mM½¼¾♯♭\uea64\uea66", 0.78)
)  # fmt: skip
_LOW = frozenset("gjpqyQ()⟨⟩,/")


def extent(words: etree._Element) -> Box | None:
    """Return the box of a text's first line; ``None`` when nothing is said."""
    said = "".join(str(part) for part in words.itertext()).strip("\u00a0 \n")
    sizes = [span.get("font-size", "0px") for span in words.iter("text", "tspan")]
    size = max((float(size.removesuffix("px")) for size in sizes if size), default=0.0)
    if not said or not size:
        return None
    x, y, wide = float(words.get("x", "0")), float(words.get("y", "0")), width(said, size)
    left = x - wide / 2 if words.get("text-anchor") == "middle" else x
    return left, *heights(said, size, y)[:1], left + wide, heights(said, size, y)[1]


def heights(said: str, size: float, y: float) -> tuple[float, float]:
    """Return the top and the foot of words on a baseline."""
    return y - 0.7 * size, y + (0.22 if _LOW & set(said) else 0.03) * size
