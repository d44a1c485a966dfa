"""Bends on the staff: an angular line from the note that is struck to the pitch it is bent to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.accidentals import bend_grace
from lickwright.engraving.overlay.ink import GAP, path_boxes
from lickwright.model.strike import Late

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction

    from lickwright.analysis.notation.pieces import Head
    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.overlay.ink import Box, Ink
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_RISE = 110.0
"""How high the angle stands over the higher end."""
_HIGHER = (0.0, 80.0, 180.0)
"""How much higher it may be where something stands in between."""
_EDGE = 40.0
"""How far from the middle of its note a line ends."""


def plan(score: Score, plan: Plan) -> None:
    """Plan every bent line: one for all strings that are bent from one sound to the next."""
    if not score.staves.staff:
        return
    for lower, voice in enumerate(score.voices):
        _voice(plan, voice, under=bool(lower) and score.music.has_lower)


def _voice(plan: Plan, voice: tuple[Entry, ...], *, under: bool) -> None:
    last: dict[int, Head] = {}
    for entry in voice:
        for _, piece in entry.pieces:
            drawn = False
            for head in piece.heads:
                before = last.get(head.tone.string)
                late = isinstance(head.tone.head, Late) and head.piece == 1
                late = late and before is not None and _pitch(before) != _pitch(head)
                start = f"s{head.local}b" if bend_grace(head) else f"s{before.local}" if before else ""
                if start and (bend_grace(head) or head.bent or late) and not drawn:
                    plan.sign("bent-line", start, f"s{head.local}", under=under)
                    drawn = True
                last[head.tone.string] = head


def _pitch(head: Head) -> Fraction | None:
    return head.tone.path[head.step] if head.tone.path else None


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.anchor(sign.start), canvas.anchor(sign.end)
    if start is None or end is None:
        return
    if start.system == end.system:
        _line(canvas, start.system, start, end, sign.under, "bent-line")
        return
    _line(canvas, start.system, start, None, sign.under, "bent-line")
    _line(canvas, end.system, None, end, sign.under, "bent-line continued")


def _line(
    canvas: Canvas, system: int, start: Anchor | None, end: Anchor | None, under: bool, kind: str
) -> None:
    """One piece: from its note, or the head of the line, to its note, or the line's end."""
    ink = canvas.inks[system]["s"]
    way = 1 if under else -1
    frame = canvas.frames[system]
    left = start.x + _EDGE if start else frame.left
    right = end.x - _EDGE if end else frame.right - 60
    if right - left < 60:
        left, right = left - _EDGE, right + _EDGE
    first = _edge(ink, start, way) if start else None
    last = _edge(ink, end, way) if end else None
    known = [y for y in (first, last) if y is not None]
    outer = min(known) if way < 0 else max(known)
    ends = [y if y is not None else outer + way * _RISE for y in (first, last)]

    def places(extra: float) -> list[tuple[float, float]]:
        angle = [((left + right) / 2, outer + way * (_RISE + extra))] if start and end else []
        return [(left, ends[0]), *angle, (right, ends[1])]

    # a higher angle, else the line lifted as a whole, is clear of what stands between its notes
    found = next((made for made in map(places, _HIGHER) if not ink.meets(_pieces(made), GAP / 2)), places(0))
    shift = way * ink.clear(_pieces(found), under=under, gap=GAP / 2)
    path = "L".join(f"{x:.0f} {y + shift:.0f}" for x, y in found)
    canvas.lay(system, "s", canvas.group(system, "s", kind), f"M{path}", 20)


def _edge(ink: Ink, at: Anchor, way: int) -> float:
    """Where a line may end at a note: beyond its head and all that stands over (under) it."""
    y = at.y + way * 0.5 * at.size
    box = (at.x - _EDGE, y - 10, at.x + _EDGE, y + 10)
    return y + way * ink.clear([box], under=way > 0, gap=GAP / 2)


def _pieces(places: list[tuple[float, float]]) -> list[Box]:
    return list(path_boxes("M" + "L".join(f"{x:.0f} {y:.0f}" for x, y in places), 20))


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"bent-line": _draw}
