"""Strokes, accents, short notes, spread chords: Verovio's on the staff, ours over a tab alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import grace_id
from lickwright.engraving.overlay.canvas import stroke
from lickwright.engraving.score import struck_at_grace
from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.overlay.ink import Box
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_SHAPES: dict[str, tuple[int, int, str, Box]] = {
    "d": (-75, 0, "v-170h150v170", (-13, -183, 163, 13)),
    "u": (-75, -180, "l75 180l75 -180", (-13, -193, 163, 13)),
    "accent": (-120, -150, "l240 70l-240 70", (-13, -163, 253, 3)),
    "short": (0, -60, "v1", (-35, -95, 35, -25)),
}
"""Squared bracket, V, wedge, dot: from where, seen from a foot in the middle; how; its box."""


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
                plan.sign(kind, place, text=name)


def _shape(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is None:
        return
    across, down, path, box = _SHAPES[sign.text]
    left = at.x + across

    def draw(height: float) -> None:
        group = canvas.group(at.system, at.staff, sign.kind)
        start = f"M{left:.0f} {height + down:.0f}"
        stroke(group, start + path, weight=70 if sign.text == "short" else 26)

    row = "stroke" if sign.text in ("d", "u") else "articulation"
    canvas.wish(at, row, [(left + box[0], box[1], left + box[2], box[3])], draw)


def _spread(canvas: Canvas, sign: Sign) -> None:
    """A wavy line before the digits, beyond all that stands with them."""
    high, low = canvas.near(sign.start), canvas.near(sign.end)
    if high is None or low is None:
        return
    x = min(high.x - high.half, low.x - low.half) - 70
    top, foot = high.y - 110, low.y + 110
    count = max(2, round((foot - top) / 130))
    step = (foot - top) / count / 4
    waves = "".join(f"q-60 {step:.0f} 0 {2 * step:.0f}t0 {2 * step:.0f}" for _ in range(count))
    stroke(canvas.group(high.system, high.staff, "spread"), f"M{x:.0f} {top:.0f}{waves}", weight=26)
    canvas.ink(high).add((x - 43, top, x + 43, foot))


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "down-stroke": _shape,
    "up-stroke": _shape,
    "accent": _shape,
    "short": _shape,
    "spread": _spread,
}
