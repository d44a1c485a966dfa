"""Vibrato: a wavy line over the note as long as it sounds; wide vibrato: a taller one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import blank, stroke
from lickwright.engraving.overlay.passing import slots_along

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_WAVE = 110
"""Length of one wave."""
_SHORTEST, _LONGEST = 440.0, 2200.0


def plan(score: Score, plan: Plan) -> None:
    """Plan one wavy line for each sound with vibrato on any of its notes."""
    for voice in score.voices:
        for entry, following in zip(voice, (*voice[1:], None), strict=False):
            sound = entry.sound
            wide = "wide" in sound.signs
            if not wide and not any(tone.vibrato for tone in sound.tones):
                continue
            k = next((k for k, tone in enumerate(sound.tones, 1) if tone.vibrato), 1)
            kind = "wide-vibrato" if wide else "vibrato"
            slots = slots_along(plan, [entry], kind, "~~~", "vibrato")
            host = score.staves.host
            after = f"{host}{following.anchor}" if following else ""
            plan.sign(kind, f"{host}{entry.first(k)}", f"{host}{entry.last(k)}", slots, after)


def _wave(canvas: Canvas, sign: Sign) -> None:
    height = 72 if sign.kind == "vibrato" else 130
    following = canvas.near(sign.text) if sign.text else None
    for run in canvas.runs(sign):
        left, right = run.left, run.right
        if run.ends:
            room = canvas.bar_end(sign.end) - 70
            if following is not None and following.system == run.slot.system:
                room = min(room, following.x - following.half - 90)
            right = min(max(room, left + _SHORTEST), left + _LONGEST)
        count = max(2, int((right - left) / _WAVE))
        y = run.slot.y - 60
        group = canvas.group(run.slot.system, sign.kind if run.begins else f"{sign.kind} continued")
        step = _WAVE / 4
        path = "".join(
            f"q{step:g} -{height} {2 * step:g} 0t{2 * step:g} 0" for _ in range(count)
        )  # fmt: skip
        stroke(group, f"M{left:.0f} {y:.0f}{path}", weight=30)
        blank(run.slot)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"vibrato": _wave, "wide-vibrato": _wave}
