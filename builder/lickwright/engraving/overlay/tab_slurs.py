"""Slurs on the tab: from digit to digit, over all that stands between."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.ink import bezier, chain_boxes, touching

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_HEIGHTS = (1.0, 1.5, 2.1, 2.8, 3.6)
"""How high a slur may bow, against the height it likes best."""
_THICK = 44.0
"""Weight of a slur in its middle."""
_CLEAR = 14.0

Point = tuple[float, float]


def plan(score: Score, plan: Plan) -> None:
    """Nothing: they are planned with what they slur."""


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None or end is None:
        return
    way = 1 if sign.under else -1
    first = [*_ends(canvas, start, 1, way)]
    last = [*_ends(canvas, end, -1, way)]
    if start.system == end.system:
        _curve(canvas, start.system, first, last, way)
        return
    right, left = canvas.frames[start.system].right - 40, canvas.frames[end.system].left - 100
    lift = 0.7 * way
    _curve(canvas, start.system, first, [(right, start.y + lift * start.size)], way)
    _curve(canvas, end.system, [(left, end.y + lift * end.size)], last, way)


def _ends(canvas: Canvas, at: Anchor, side: int, way: int) -> Iterator[Point]:
    """Where a slur may begin or end at a digit: over its middle, over its side, beside it, over its chord."""
    over, away = at.y + way * 0.5 * at.size, side * (at.half + 30)
    yield at.x, over
    yield at.x + 0.6 * away, over
    yield at.x + away, at.y + way * 0.2 * at.size
    column = (at.x - 40, over - 20, at.x + 40, over + 20)
    yield at.x, over + way * canvas.ink(at, "t").clear([column], under=way > 0, gap=20)


def _curve(canvas: Canvas, system: int, starts: list[Point], ends: list[Point], way: int) -> None:
    """Draw the first of the curves that is free of all ink, or the one that touches the least."""
    ink = canvas.inks[system]["t"]
    left, right = min(x for x, _ in starts), max(x for x, _ in ends)
    others = [(a - _CLEAR, b - _CLEAR, c + _CLEAR, d + _CLEAR) for a, b, c, d in ink.near(left, right)]
    best, least = (starts[0], ends[0], 0.0), 0
    for number, curve in enumerate(_curves(starts, ends, way)):
        start, end, bow = curve
        touched = touching(chain_boxes(bezier([start, *_handles(start, end, bow), end], 7), 6), others)
        if not number or touched < least:
            best, least = curve, touched
        if not touched:
            break
    canvas.lay(system, "t", canvas.group(system, "t", "slur"), _lens(*best), 12, filled=True)


def _curves(starts: list[Point], ends: list[Point], way: int) -> Iterator[tuple[Point, Point, float]]:
    """All ways from one to the other, with how high they bow: the plainest first, the highest last."""
    pairs = sorted(product(range(len(starts)), range(len(ends))), key=lambda pair: (sum(pair), pair))
    for first, last in pairs:
        start, end = starts[first], ends[last]
        liked = min(190.0, 70.0 + 0.09 * (end[0] - start[0]))
        for height in _HEIGHTS:
            yield start, end, way * liked * height


def _handles(start: Point, end: Point, bow: float) -> tuple[Point, Point]:
    """The points that draw a curve out to a bow."""
    reach = 0.22 * (end[0] - start[0])
    return (start[0] + reach, start[1] + bow * 4 / 3), (end[0] - reach, end[1] + bow * 4 / 3)


def _lens(start: Point, end: Point, bow: float) -> str:
    """A slur: out along one curve, back along one less bowed."""
    one, two = _handles(start, end, bow)
    thin = _THICK if bow > 0 else -_THICK
    places = (start, one, two, end, (two[0], two[1] - thin), (one[0], one[1] - thin), start)
    said = [f"{x:.0f},{y:.0f}" for x, y in places]
    return f"M{said[0]} C{' '.join(said[1:4])} C{' '.join(said[4:])}"


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"slur": _draw}
