"""Numbers of tuplets inside tuplets: Verovio is given the whole ratio of those, and no number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import move, stroke
from lickwright.engraving.pieces import Bracketed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.pieces import Part
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign


def plan(score: Score, plan: Plan) -> None:
    """Plan a bracket and a number over every nested tuplet."""
    letter = score.staves.top
    for index, layers in enumerate(score.layers):
        for layer in layers:
            for tuplet in _nested(layer.parts):
                heads = [piece.heads[0].local for piece in tuplet.pieces if piece.sound is not None]
                if heads:
                    start = f"{letter}{heads[0]}"
                    slot = plan.slot(
                        index,
                        "nested-tuplet",
                        str(tuplet.number),
                        "tuplet",
                        start=start,
                        top=True,
                        italic=True,
                    )
                    plan.sign("nested-tuplet", start, f"{letter}{heads[-1]}", (slot,))


def _nested(parts: tuple[Part, ...]) -> Iterator[Bracketed]:
    for part in parts:
        if isinstance(part, Bracketed):
            if part.nested:
                yield part
            yield from _nested(part.members)


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end, words = canvas.near(sign.start), canvas.near(sign.end), canvas.words(sign.slots[0])
    if start is None or end is None or words is None:
        return
    left, right = start.x - start.half, end.x + end.half
    middle, y = (left + right) / 2, words.y - 0.3 * words.size
    move(words, middle)
    group = canvas.group(start.system, "nested-tuplet")
    stroke(group, f"M{left:.0f} {y + 60:.0f}V{y:.0f}H{middle - 110:.0f}", weight=18)
    stroke(group, f"M{middle + 110:.0f} {y:.0f}H{right:.0f}v60", weight=18)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"nested-tuplet": _draw}
