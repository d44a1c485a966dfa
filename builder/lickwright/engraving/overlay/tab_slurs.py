"""Slurs on the tab: from digit to digit, over all that stands between."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.ink import path_boxes

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_HEIGHTS = (1.0, 1.5, 2.1, 2.8, 3.6, 4.5, 5.5)
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
    if start.system == end.system:
        _curve(canvas, start.system, _ends(start, 1), _ends(end, -1), sign.under)
        return
    right, left = canvas.frames[start.system].right - 40, canvas.frames[end.system].left - 100
    _curve(canvas, start.system, _ends(start, 1), _open(right, start), sign.under)
    _curve(canvas, end.system, _open(left, end), _ends(end, -1), sign.under)


def _ends(at: Anchor, way: int) -> tuple[tuple[float, float, float], ...]:
    """Where a slur may begin or end at a digit: over its middle, over its side, beside it.

    Each is a place across, and how far from the digit's middle it lies, up or down.
    """
    over, beside = 0.5 * at.size, 0.2 * at.size
    side = way * (at.half + 30)
    return (at.x, at.y, over), (at.x + 0.6 * side, at.y, over), (at.x + side, at.y, beside)


def _open(x: float, at: Anchor) -> tuple[tuple[float, float, float], ...]:
    return ((x, at.y, 0.7 * at.size),)


def _curve(
    canvas: Canvas,
    system: int,
    starts: tuple[tuple[float, float, float], ...],
    ends: tuple[tuple[float, float, float], ...],
    under: bool,
) -> None:
    """Draw the first of the curves that is free of all ink, or the one that touches the least."""
    ink = canvas.inks[system]["t"]
    best, least = "", 0
    for path in _curves(starts, ends, under):
        touched = ink.meets(path_boxes(path, 12), _CLEAR)
        if not best or touched < least:
            best, least = path, touched
        if not touched:
            break
    group = canvas.group(system, "t", "slur")
    canvas.lay(system, "t", group, best, 12)
    del group[0].attrib["fill"]


def _curves(
    starts: tuple[tuple[float, float, float], ...], ends: tuple[tuple[float, float, float], ...], under: bool
) -> Iterator[str]:
    for way in (1, -1) if under else (-1, 1):
        for low in range(max(len(starts), len(ends))):
            (x, y, off), (x2, y2, off2) = starts[min(low, len(starts) - 1)], ends[min(low, len(ends) - 1)]
            liked = min(190.0, 70.0 + 0.09 * (x2 - x))
            for height in _HEIGHTS:
                yield _lens((x, y + way * off), (x2, y2 + way * off2), way * liked * height)


def _lens(start: Point, end: Point, bow: float) -> str:
    """A slur: out along one curve, back along one less bowed."""
    (x, y), (x2, y2) = start, end
    outer, inner = bow * 4 / 3, bow * 4 / 3 - (_THICK if bow > 0 else -_THICK)
    reach = 0.22 * (x2 - x)

    def points(high: float) -> tuple[str, str]:
        return f"{x + reach:.0f},{y + high:.0f}", f"{x2 - reach:.0f},{y2 + high:.0f}"

    (a, b), (c, d) = points(outer), points(inner)
    return f"M{x:.0f},{y:.0f} C{a} {b} {x2:.0f},{y2:.0f} C{d} {c} {x:.0f},{y:.0f}"


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"slur": _draw}
