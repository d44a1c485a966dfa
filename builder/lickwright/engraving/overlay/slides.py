"""Slides: an oblique line between digits, short ones into and out of a note."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.score import Entry, source_of
from lickwright.engraving.tag import tag
from lickwright.model.slots import SLIDES
from lickwright.model.strike import Slide

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_REACH, _LEAST = 210.0, 60.0
"""How far a slide from or to nowhere reaches, where it can; how far at least."""
_AWAY = 24.0
_OWN = 60.0
"""Ink so near a head is its accidental, its dot."""


def plan(score: Score, plan: Plan) -> None:
    """Plan slides between sounds, from grace notes, in from and out to nowhere."""
    for voice in score.voices:
        for before, entry in zip((None, *voice), voice, strict=False):
            for k, tone in enumerate(entry.sound.tones, 1):
                if tone.link in SLIDES or _slid_grace(entry, tone.string):
                    _between(score, plan, before, entry, k)
    for entry in score.entries:
        sound = entry.sound
        for k, _ in enumerate(sound.tones, 1):
            for kind, slide in (("slide-in", sound.slide_in), ("slide-out", sound.slide_out)):
                if slide is None:
                    continue
                way = "up" if slide is Slide.RISING else "down"
                if score.staves.tab:
                    plan.sign(kind, f"t{entry.first(k)}", text=way)
                if score.staves.staff:
                    head = entry.first(k) if kind == "slide-in" else entry.last(k)
                    plan.sign(kind, f"s{head}", text=way)


def _between(score: Score, plan: Plan, before: Entry | None, entry: Entry, k: int) -> None:
    tone = entry.sound.tones[k - 1]
    source = source_of(before, entry, tone)
    if source is None:
        return
    start, grace = source
    end = entry.first(k)
    if score.staves.staff:
        bar = entry.bar if grace or before is None else before.pieces[-1][0]
        plan.control(bar, tag("gliss", startid=f"#s{start}", endid=f"#s{end}"))
    if score.staves.tab:
        found = before.on_string(tone.string) if before and not grace else None
        digit = start
        if before and found and score.staves.staff:  # a tab alone has a digit for each tied piece
            digit = before.first(found[0])
        fret = found[1].fret if found else _grace_fret(entry, tone.string)
        way = "up" if (tone.fret or 0) >= (fret or 0) else "down"
        plan.sign("slide", f"t{digit}", f"t{end}", text=way)


def _slid_grace(entry: Entry, string: int) -> bool:
    """Whether the last grace note slides into the sound on this string."""
    last = entry.sound.grace[-1] if entry.sound.grace else None
    return last is not None and last.leads in SLIDES and any(t.string == string for t in last.tones)


def _grace_fret(entry: Entry, string: int) -> int | None:
    frets = [tone.fret for grace in entry.sound.grace for tone in grace.tones if tone.string == string]
    return frets[-1] if frets else None


def _line(canvas: Canvas, at: Anchor, left: float, right: float, way: str, kind: str) -> None:
    rise = min(0.26 * at.size, 0.35 * (right - left)) * (1 if way == "up" else -1)
    group = canvas.group(at.system, at.staff, kind)
    canvas.lay(at.system, at.staff, group, f"M{left:.0f} {at.y + rise:.0f}L{right:.0f} {at.y - rise:.0f}", 24)


def _slide(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None or end is None:
        return
    if start.system == end.system:
        left, right = start.x + start.half + 22, end.x - end.half - 22
        if right - left < 40:
            left, right = (left + right) / 2 - 20, (left + right) / 2 + 20
        _line(canvas, start, left, right, sign.text, "slide")
        return
    right = canvas.frames[start.system].right - 60
    _line(canvas, start, start.x + start.half + 30, right, sign.text, "slide")
    _line(canvas, end, end.x - end.half - 30 - _REACH, end.x - end.half - 30, sign.text, "slide continued")


def _nowhere(canvas: Canvas, sign: Sign) -> None:
    """A short line before or after a note, no longer than the room that the next ink leaves."""
    at = canvas.near(sign.start)
    if at is None:
        return
    out = sign.kind == "slide-out"
    way = 1 if out else -1
    edge, limit = canvas.ink(at).beside(at.x + way * at.half, at.y, way, reach=_REACH + 100, near=_OWN)
    room = abs(limit - edge) - _AWAY
    if out:  # the other half may be wanted by a slide into what follows
        room = room if abs(limit - edge) >= _REACH + 100 else room / 2
    reach = max(_LEAST, min(_REACH, room - _AWAY))
    away = max(8.0, min(_AWAY, (abs(limit - edge) - reach) / 2))
    near, far = sorted((edge + way * away, edge + way * (away + reach)))
    _line(canvas, at, near, far, sign.text, sign.kind)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "slide": _slide, "slide-in": _nowhere, "slide-out": _nowhere,
}  # fmt: skip
