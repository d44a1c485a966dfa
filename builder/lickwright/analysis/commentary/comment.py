"""A commentary: every note of a voice in one remark.

From left to right the figures of the tables are tried at each note, the longest and most telling
first; what fits takes its notes with it. Two figures meet only at the note one ends on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from lickwright.analysis.commentary.harmony import (
    say_arpeggio,
    say_blues_scale,
    say_no_chord,
    say_notes,
    say_pentatonic,
)
from lickwright.analysis.commentary.item import Item, list_items
from lickwright.analysis.commentary.ornament import (
    say_anticipation,
    say_approach,
    say_bend,
    say_blue,
    say_enclosure,
    say_neighbour,
    say_other,
    say_suspension,
)
from lickwright.analysis.commentary.reason import say_why
from lickwright.analysis.commentary.remark import PLACES, NoteRemark, Remark
from lickwright.analysis.commentary.shape import say_cell, say_chromatic_walk, say_drone, say_walk
from lickwright.analysis.commentary.together import say_boogie, say_chord, say_double_stops
from lickwright.analysis.entries import Analysis

Say = Callable[[tuple[Item, ...], int], tuple[int, str] | None]
"""From the items of a voice and an index: how many items a figure takes there, and its text."""

FIGURES: tuple[Say, ...] = (
    say_no_chord,
    say_boogie,
    say_double_stops,
    say_chord,
    say_suspension,
    say_anticipation,
    say_cell,
    say_drone,
    say_bend,
    say_blues_scale,
    say_enclosure,
    say_pentatonic,
    say_walk,
    say_neighbour,
    say_blue,
    say_approach,
    say_arpeggio,
    say_other,
    say_notes,
)

PLAIN: tuple[Say, ...] = (say_pentatonic, say_arpeggio, say_notes)
LEADING: tuple[Say, ...] = (say_enclosure, say_chromatic_walk, say_neighbour)


def comment(analysis: Analysis) -> tuple[Remark, ...]:
    """Say what the notes of a piece do.

    Args:
        analysis: Of the piece.

    Returns:
        Remarks in the order written, the upper voice before the lower. Together they take every pitch that
        has a role, each once; repeats are not said again.
    """
    remarks: list[Remark] = []
    for items in list_items(analysis):
        index = 0
        while index < len(items):
            count, text = _say(items, index)
            remarks.append(_remark(items, index, count, text))
            index += count
    return tuple(remarks)


def _say(items: tuple[Item, ...], index: int) -> tuple[int, str]:
    """The first figure that fits; one of plain notes gives up its last to a figure that begins on it."""
    for say in FIGURES:
        found = say(items, index)
        if found is None:
            continue
        count = found[0]
        if say in PLAIN and count > 1:
            for begin in range(index + 1, index + count):
                if any((led := lead(items, begin)) and begin + led[0] > index + count for lead in LEADING):
                    return _say(items[:begin], index)
        return found
    raise AssertionError  # say_notes always fits


def in_bar(remarks: Iterable[Remark], number: int, *, lower: bool = False) -> tuple[Remark, ...]:
    """Return the remarks that begin in a bar, for one voice."""
    return tuple(r for r in remarks if r.first.bar == number and r.lower is lower)


def _remark(items: tuple[Item, ...], first: int, count: int, text: str) -> Remark:
    taken = items[first : first + count]
    notes = tuple(
        NoteRemark(
            role.address,
            role.tone,
            role.turn,
            role.degree,
            role.role.value,
            PLACES[role.weight],
            say_why(items, first + index, number),
        )
        for index, item in enumerate(taken)
        for number, role in enumerate(item.roles)
    )
    return Remark(
        taken[0].top.address,
        taken[-1].top.address,
        tuple(item.role.value for item in taken),
        tuple("+".join(role.degree for role in item.roles) for item in taken),
        text,
        notes,
    )
