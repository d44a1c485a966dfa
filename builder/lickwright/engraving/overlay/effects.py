"""The signs row: tremolo, trill, swell, pinched harmonic, scrape, fermata."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke
from lickwright.engraving.overlay.legato import write
from lickwright.engraving.tag import tag
from lickwright.terms.signs import parse_sign

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.overlay.ink import Box
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_WORDS = {"pinch": "P.H.", "scrape": "scrape"}
_ROWS = {"pinch": "harmonic", "scrape": "harmonic", "trill-frets": "effect"}
_ITALIC = frozenset({"scrape", "trill-frets"})
_SIZE = 272.0
_SWELL = "M{left:.0f} {y:.0f}l-480 90l480 90"
_TREMOLO = "M{left:.0f} {y:.0f}l180-60m-180 140l180-60m-180 140l180-60"
_FERMATA = (
    "M{left:.0f} {y:.0f}a150 150 0 0 1 300 0a150 115 0 0 0 -300 0zm126 -24a24 24 0 0 0 48 0a24 24 0 0 0 -48 0"
)
_SHAPES: dict[str, tuple[float, str, int, Box, str]] = {
    "swell": (420, _SWELL, 22, (-480, -11, 0, 191), "swell"),
    "tremolo": (-90, _TREMOLO, 36, (0, -80, 180, 180), "tremolo"),
    "fermata": (-150, _FERMATA, 0, (0, -150, 300, 10), "harmonic"),
}
"""From where, seen from the note; the path; its weight (0 = filled); its box; its row."""


def plan(score: Score, plan: Plan) -> None:
    """Plan the signs of every sound; on the staff Verovio draws trills, tremolos and fermatas."""
    for entry in score.entries:
        for sign in entry.sound.signs:
            _one(score, plan, entry, sign)


def _one(score: Score, plan: Plan, entry: Entry, sign: str) -> None:
    staves = score.staves
    at = f"{staves.host}{entry.anchor}"
    if sign in _WORDS:
        plan.sign(sign, at, text=_WORDS[sign])
    elif (read := parse_sign(sign)) and read[0].word == "trill":
        if staves.staff:
            plan.control(entry.bar, tag("trill", startid=f"#s{entry.anchor}", staff=1, place="above"))
        if staves.tab:
            plan.sign("trill-frets", at, text=f"tr ({read[1]})")
    elif sign == "fermata" and staves.staff:
        plan.control(entry.bar, tag("fermata", startid=f"#s{entry.anchor}", staff=1, place="above"))
    elif sign in ("swell", "fermata") or (sign == "tremolo" and staves.tab):
        plan.sign(sign, at)


def _words(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is not None:
        write(canvas, sign, at, at.x, _ROWS[sign.kind], _SIZE, "italic" if sign.kind in _ITALIC else "")


def _shape(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is None:
        return
    off, path, weight, box, row = _SHAPES[sign.kind]
    left, staff = at.x + off, sign.start[0]

    def draw(height: float) -> None:
        group = canvas.group(at.system, staff, sign.kind)
        stroke(group, path.format(left=left, y=height), weight=weight, filled=not weight)

    wanted = (left + box[0], box[1], left + box[2], box[3])
    canvas.wish((at.system, staff), row, [wanted], draw)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    **dict.fromkeys(_ROWS, _words), **dict.fromkeys(_SHAPES, _shape),
}  # fmt: skip
