"""Numbers of tuplets inside tuplets: Verovio is given the whole ratio of those, and no number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import Bracketed
from lickwright.engraving.overlay.canvas import stroke

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.analysis.notation.pieces import Part
    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

_SIZE = 272.0


def plan(score: Score, plan: Plan) -> None:
    """Plan a bracket and a number over every nested tuplet."""
    letter = score.staves.top
    for layers in score.layers:
        for layer in layers:
            for tuplet in _nested(layer.parts):
                heads = [piece.heads[0].local for piece in tuplet.pieces if piece.sound is not None]
                if heads:
                    plan.sign(
                        "nested-tuplet", f"{letter}{heads[0]}", f"{letter}{heads[-1]}", str(tuplet.number)
                    )


def _nested(parts: tuple[Part, ...]) -> Iterator[Bracketed]:
    for part in parts:
        if isinstance(part, Bracketed):
            if part.nested:
                yield part
            yield from _nested(part.members)


def _draw(canvas: Canvas, sign: Sign) -> None:
    start, end = canvas.near(sign.start), canvas.near(sign.end)
    if start is None or end is None:
        return
    left, right, staff = start.x - start.half, end.x + end.half, sign.start[0]
    middle = (left + right) / 2

    def draw(height: float) -> None:
        canvas.word(
            (start.system, staff, start.bar), "nested-tuplet", middle, height, sign.text, _SIZE, "italic"
        )
        group = canvas.group(start.system, staff, "nested-tuplet")
        y = height - 0.3 * _SIZE
        stroke(group, f"M{left:.0f} {y + 60:.0f}V{y:.0f}H{middle - 110:.0f}", weight=18)
        stroke(group, f"M{middle + 110:.0f} {y:.0f}H{right:.0f}v60", weight=18)

    canvas.wish((start.system, staff), "tuplet", [(left, -0.7 * _SIZE, right, 20)], draw)


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"nested-tuplet": _draw}
