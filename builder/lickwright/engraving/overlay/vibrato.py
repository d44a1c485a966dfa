"""Vibrato: a wavy line over the note as long as it sounds; wide vibrato: a taller one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas, Run
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_WAVE = 110
"""Length of one wave."""
_HEIGHTS = {"vibrato": 72, "wide-vibrato": 130}
_SHORTEST, _LONGEST = 440.0, 2200.0


def plan(score: Score, plan: Plan) -> None:
    """Plan one wavy line for each sound with vibrato on any of its notes."""
    host = score.staves.host
    for voice in score.voices:
        for entry, following in zip(voice, (*voice[1:], None), strict=False):
            sound = entry.sound
            wide = "wide" in sound.signs
            if not wide and not any(tone.vibrato for tone in sound.tones):
                continue
            k = next((k for k, tone in enumerate(sound.tones, 1) if tone.vibrato), 1)
            kind = "wide-vibrato" if wide else "vibrato"
            after = f"{host}{following.anchor}" if following else ""
            plan.sign(kind, f"{host}{entry.first(k)}", f"{host}{entry.last(k)}", after)


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None or end is None:
        return
    following = canvas.near(sign.text) if sign.text else None
    for run in canvas.runs(start, end):
        left, right = run.left, run.right
        if run.ends:
            room = canvas.bar_end(end) - 70
            if following is not None and following.system == run.system:
                room = min(room, following.x - following.half - 90)
            right = min(max(room, left + _SHORTEST), left + _LONGEST)
        _wave(canvas, sign, run, left, right)


def _wave(canvas: Canvas, sign: Sign, run: Run, left: float, right: float) -> None:
    count = max(2, int((right - left) / _WAVE))
    high, step, staff = _HEIGHTS[sign.kind], _WAVE / 4, sign.start[0]
    path = "".join(f"q{step:g} -{high} {2 * step:g} 0t{2 * step:g} 0" for _ in range(count))

    def draw(height: float) -> None:
        group = canvas.group(run.system, staff, sign.kind if run.begins else f"{sign.kind} continued")
        stroke(group, f"M{left:.0f} {height:.0f}{path}", weight=30)

    half = high / 2 + 15
    canvas.wish((run.system, staff), "vibrato", [(left, -half, left + count * _WAVE, half)], draw)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = dict.fromkeys(_HEIGHTS, _draw)
