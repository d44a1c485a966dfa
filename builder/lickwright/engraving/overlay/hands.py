"""Rows under the tab: letters of the plucking hand, then fingers of the fretting hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import word_box

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Entry, Score
    from lickwright.engraving.signs import Plan, Sign

_SIZE, _LINE = 272.0, 250.0


def plan(score: Score, plan: Plan) -> None:
    """Plan both rows; letters of one moment stand one over the other, the highest string on top."""
    host = score.staves.host
    moments: dict[tuple[int, Fraction], list[Entry]] = {}
    for entry in score.entries:
        moments.setdefault((entry.bar, entry.sound.onset), []).append(entry)
    for entries in moments.values():
        tones = sorted((t for entry in entries for t in entry.sound.tones), key=lambda tone: tone.string)
        hand = [tone.hand for tone in tones if tone.hand is not None]
        if not hand and any(entry.sound.stroke == "P" for entry in entries):
            hand = ["P"]
        finger = [str(tone.finger) for tone in tones if tone.finger is not None]
        for letters, row in ((hand, "hand"), (finger, "finger")):
            if letters:
                plan.sign(row, f"{host}{entries[0].anchor}", text="\n".join(letters), under=True)


def _row(canvas: Canvas, sign: Sign) -> None:
    at = canvas.near(sign.start)
    if at is None:
        return
    place = (at.system, sign.start[0], at.bar)
    letters = sign.text.split("\n")
    style = "italic" if sign.kind == "hand" else ""

    def draw(height: float) -> None:
        for number, letter in enumerate(letters):
            canvas.word(
                place, sign.kind, at.x, height + _LINE * number, letter, _SIZE, style, more=number > 0
            )

    boxes = [word_box(at.x, letter, _SIZE, y=_LINE * number) for number, letter in enumerate(letters)]
    canvas.wish(place[:2], sign.kind, boxes, draw, under=True)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"hand": _row, "finger": _row}
