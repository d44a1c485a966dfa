"""Strokes, accents, short notes, spread chords: Verovio's on the staff, ours over a tab alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.ids import grace_id
from lickwright.engraving.overlay.canvas import blank, stroke
from lickwright.engraving.score import struck_at_grace
from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_SHAPES = {
    "d": (-75, 0, "v-170h150v170"),
    "u": (-75, -180, "l75 180l75 -180"),
    "accent": (-120, -150, "l240 70l-240 70"),
    "short": (0, -60, "v1"),
}
"""The squared bracket, the V, the wedge, the dot: from where, seen from a foot in the middle, and how."""


def plan(score: Score, plan: Plan) -> None:
    """Plan what a tab alone needs, and the wavy line of a spread chord on both staves."""
    for entry in score.entries:
        sound = entry.sound
        at = f"t{entry.anchor}"
        if sound.spread and len(sound.tones) > 1:
            if score.staves.staff:
                chord = f"#c{entry.pieces[0][1].heads[0].local}"
                plan.control(entry.bar, tag("arpeg", startid=chord))
            if score.staves.tab:
                ordered = sorted((tone.string, k) for k, tone in enumerate(sound.tones, 1))
                plan.sign("spread", f"t{entry.first(ordered[0][1])}", f"t{entry.first(ordered[-1][1])}")
        if score.staves.staff:
            continue
        for name, wanted, row in (
            (sound.stroke or "", sound.stroke in ("d", "u"), "stroke"),
            ("accent", sound.accent, "articulation"),
            ("short", sound.short, "articulation"),
        ):
            if wanted:
                struck = row == "stroke" and struck_at_grace(sound)
                place = f"t{grace_id(sound.address, 1, 1)}" if struck else at
                kind = {"d": "down-stroke", "u": "up-stroke"}.get(name, name)
                slot = plan.slot(entry.bar, kind, "V", row, start=place)
                plan.sign(kind, place, slots=(slot,), text=name)


def _shape(canvas: Canvas, sign: Sign) -> None:
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    group = canvas.group(at.system, sign.kind)
    across, down, path = _SHAPES[sign.text]
    start = f"M{at.x + across:.0f} {words.y + down:.0f}"
    stroke(group, start + path, weight=70 if sign.text == "short" else 26)
    blank(words)


def _spread(canvas: Canvas, sign: Sign) -> None:
    high, low = canvas.near(sign.start), canvas.near(sign.end)
    if high is None or low is None:
        return
    x = min(high.x - high.half, low.x - low.half) - 70
    top, foot = high.y - 110, low.y + 110
    count = max(2, round((foot - top) / 130))
    step = (foot - top) / count / 4
    waves = "".join(f"q-60 {step:.0f} 0 {2 * step:.0f}t0 {2 * step:.0f}" for _ in range(count))
    stroke(canvas.group(high.system, "spread"), f"M{x:.0f} {top:.0f}{waves}", weight=26)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "down-stroke": _shape,
    "up-stroke": _shape,
    "accent": _shape,
    "short": _shape,
    "spread": _spread,
}
