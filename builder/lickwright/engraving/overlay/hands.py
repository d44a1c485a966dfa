"""Rows under the tab: letters of the plucking hand, then fingers of the fretting hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import lower, move

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_CLEAR = 150.0
"""How much lower the rows are set than Verovio puts them: clear of digits on the lowest string."""


def plan(score: Score, plan: Plan) -> None:
    """Plan both rows; letters of one moment stand one over the other, the highest string on top."""
    host = score.staves.host
    moments: dict[tuple[int, Fraction], list[Entry]] = {}
    for entry in score.entries:
        moments.setdefault((entry.bar, entry.sound.onset), []).append(entry)
    for (bar, _), entries in moments.items():
        tones = sorted((t for entry in entries for t in entry.sound.tones), key=lambda tone: tone.string)
        hand = [tone.hand for tone in tones if tone.hand is not None]
        if not hand and any(entry.sound.stroke == "P" for entry in entries):
            hand = ["P"]
        finger = [tone.finger for tone in tones if tone.finger is not None]
        for letters, row in ((hand, "hand"), (finger, "finger")):
            if letters:
                at = f"{host}{entries[0].anchor}"
                words = "\n".join(letters)
                slot = plan.slot(bar, row, words, row, start=at, below=True, italic=row == "hand")
                plan.sign(row, at, slots=(slot,))


def _row(canvas: Canvas, sign: Sign) -> None:
    words, at = canvas.words(sign.slots[0]), canvas.near(sign.start)
    if words is not None and at is not None:
        move(words, at.x)
        lower(words, _CLEAR)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"hand": _row, "finger": _row}
