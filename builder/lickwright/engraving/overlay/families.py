"""All families of signs, in the order in which they are planned."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay import (
    articulations,
    bends,
    bent_lines,
    brackets,
    chords,
    effects,
    hands,
    legato,
    marks,
    slides,
    tab_slurs,
    tuplets,
    vibrato,
)
from lickwright.engraving.overlay.rows import settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Plan, Sign

FAMILIES = (
    chords,
    tuplets,
    slides, bends, legato, tab_slurs, bent_lines, vibrato, effects, articulations, brackets, hands,
)  # fmt: skip
DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {
    kind: draw for family in (*FAMILIES, marks) for kind, draw in family.DRAWN.items()
}


def plan_signs(score: Score, plan: Plan) -> None:
    """Plan the signs of all families."""
    for family in FAMILIES:
        family.plan(score, plan)


def draw_signs(canvas: Canvas, signs: list[Sign]) -> None:
    """Draw planned signs: what has its place at once, the others row by row from the staff outwards."""
    for sign in signs:
        DRAWN[sign.kind](canvas, sign)
    settle(canvas.wishes, canvas.inks)
