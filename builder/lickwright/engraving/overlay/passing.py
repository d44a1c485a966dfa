"""Slots of a sign that lasts, all along it."""

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
    again: str = "",
) -> tuple[str, ...]:
    """Plan a slot at each of the sounds, and at the first piece of each bar that they pass through.

    The first holds the words, the first of each further bar the words said ``again`` where a system begins
    with it; the others keep the line that follows free of what it passes over.
    """
    staves = plan.score.staves
    made: list[str] = []
    latest = -1
    for entry in entries:
        last = -1
        for bar, piece in entry.pieces:
            if bar == last:
                continue
            last = bar
            start = f"{staves.top if top else staves.host}{entry.anchor}" if piece.first else ""
            said = (again if bar != latest else "") if made else words
            latest = bar
            made.append(
                plan.slot(
                    bar, kind, said, row, start=start, onset=piece.onset, top=top, italic=kind != "position"
                )
            )
    return tuple(made)
