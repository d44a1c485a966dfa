"""Rows under the tab: letters of the plucking hand, then fingers of the fretting hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import lower, move

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_CLEAR = 90.0
"""How much lower the rows are set than Verovio puts them: clear of digits on the lowest string."""


def plan(score: Score, plan: Plan) -> None:
    """Plan both rows; a chord's letters stand one over the other, the highest string on top."""
    host = score.staves.host
    for entry in score.entries:
        hand = _stack(entry, "hand")
        if not hand and entry.sound.stroke == "P":
            hand = "P"
        for words, row, italic in ((hand, "hand", True), (_stack(entry, "finger"), "finger", False)):
            if words:
                at = f"{host}{entry.anchor}"
                slot = plan.slot(entry.bar, row, words, row, start=at, below=True, italic=italic)
                plan.sign(row, at, slots=(slot,))


def _stack(entry: Entry, field: str) -> str:
    tones = sorted(entry.sound.tones, key=lambda tone: tone.string)
    return "\n".join(value for tone in tones if (value := getattr(tone, field)) is not None)


def _row(canvas: Canvas, sign: Sign) -> None:
    words, at = canvas.words(sign.slots[0]), canvas.near(sign.start)
    if words is not None and at is not None:
        move(words, at.x)
        lower(words, _CLEAR)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"hand": _row, "finger": _row}
