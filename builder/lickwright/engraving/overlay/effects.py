"""The signs row: tremolo, trill, swell, pinched harmonic, scrape, fermata."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import blank, stroke
from lickwright.engraving.tag import tag
from lickwright.terms.signs import parse_sign

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_WORDS = {"pinch": ("P.H.", False), "scrape": ("scrape", True)}
_FERMATA = "a150 150 0 0 1 300 0a150 115 0 0 0 -300 0zm126 -24a24 24 0 0 0 48 0a24 24 0 0 0 -48 0"


def plan(score: Score, plan: Plan) -> None:
    """Plan the signs of every sound; on the staff Verovio draws trills, tremolos and fermatas."""
    for entry in score.entries:
        for sign in entry.sound.signs:
            _one(score, plan, entry, sign)


def _one(score: Score, plan: Plan, entry: Entry, sign: str) -> None:
    staves = score.staves
    at = f"{staves.host}{entry.anchor}"
    if sign in _WORDS:
        words, italic = _WORDS[sign]
        slot = plan.slot(entry.bar, sign, words, "harmonic", start=at, italic=italic)
        plan.sign("centred", at, slots=(slot,))
    elif (read := parse_sign(sign)) and read[0].word == "trill":
        if staves.staff:
            plan.control(entry.bar, tag("trill", startid=f"#s{entry.anchor}", staff=1, place="above"))
        if staves.tab:
            slot = plan.slot(entry.bar, "trill-frets", f"tr ({read[1]})", "effect", start=at, italic=True)
            plan.sign("centred", at, slots=(slot,))
    elif sign == "swell":
        slot = plan.slot(entry.bar, sign, "<<<", "swell", start=at)
        plan.sign("swell", at, slots=(slot,))
    elif sign == "tremolo" and staves.tab:
        slot = plan.slot(entry.bar, sign, "\u00a0", "effect", start=at)
        plan.sign("tremolo", at, slots=(slot,))
    elif sign == "fermata":
        if staves.staff:
            plan.control(entry.bar, tag("fermata", startid=f"#s{entry.anchor}", staff=1, place="above"))
        else:
            slot = plan.slot(entry.bar, sign, "\u00a0", "effect", start=at)
            plan.sign("fermata", at, slots=(slot,))


def _swell(canvas: Canvas, sign: Sign) -> None:
    """A hairpin that opens: from silence to full."""
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    y = words.y - 120
    stroke(canvas.group(at.system, "swell"), f"M{at.x + 420:.0f} {y - 90:.0f}L{at.x - 60:.0f} {y:.0f}l480 90")
    blank(words)


def _tremolo(canvas: Canvas, sign: Sign) -> None:
    """Three strokes over the digit."""
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    group = canvas.group(at.system, "tremolo")
    path = "".join(f"M{at.x - 90:.0f} {words.y - 20 - 80 * number:.0f}l180 -60" for number in range(3))
    stroke(group, path, weight=36)
    blank(words)


def _fermata(canvas: Canvas, sign: Sign) -> None:
    at, words = canvas.near(sign.start), canvas.words(sign.slots[0])
    if at is None or words is None:
        return
    group = canvas.group(at.system, "fermata")
    stroke(group, f"M{at.x - 150:.0f} {words.y:.0f}{_FERMATA}", filled=True)
    blank(words)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    "swell": _swell, "tremolo": _tremolo, "fermata": _fermata,
}  # fmt: skip
