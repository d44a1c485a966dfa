"""Slots of a sign that lasts: one at its start, and one in each later bar to keep its height."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.engraving.score import Entry
    from lickwright.engraving.signs import Plan


def slots_along(
    plan: Plan,
    entries: Sequence[Entry],
    kind: str,
    words: str,
    row: str,
    *,
    top: bool = False,
    italic: bool = True,
) -> tuple[str, ...]:
    """Plan slots at the first piece of each bar that the sounds pass through; words at the first alone."""
    staves = plan.score.staves
    made: list[str] = []
    last = -1
    for entry in entries:
        for bar, piece in entry.pieces:
            if bar == last:
                continue
            last = bar
            start = ""
            if not made:
                start = f"{staves.top if top else staves.host}{entry.anchor}"
            made.append(
                plan.slot(
                    bar,
                    kind,
                    words if not made else "",
                    row,
                    start=start,
                    onset=piece.onset,
                    top=top,
                    italic=italic,
                )
            )
    return tuple(made)
