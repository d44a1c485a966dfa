"""A commentary: every note of a voice in one remark.

From left to right the figures of the table are tried at each note, the longest and most telling
first; what fits takes its notes with it, and where none fits the next note is tried. The notes between
figures are said by their chord. Two figures meet only at the note one ends on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from lickwright.analysis.commentary.grace import say_grace
from lickwright.analysis.commentary.harmony import say_blues_scale, say_no_chord, say_pentatonic
from lickwright.analysis.commentary.held import say_anticipation, say_lean, say_suspension
from lickwright.analysis.commentary.item import Item, list_items
from lickwright.analysis.commentary.ornament import (
    say_approach,
    say_bend,
    say_blue,
    say_enclosure,
    say_neighbour,
    say_other,
    say_slurred,
    say_turn,
)
from lickwright.analysis.commentary.parallel import (
    say_broken,
    say_double_stops,
    say_oblique,
    say_rocking,
)
from lickwright.analysis.commentary.plain import say_plain
from lickwright.analysis.commentary.reason import say_why
from lickwright.analysis.commentary.remark import PLACES, NoteRemark, Remark
from lickwright.analysis.commentary.shape import say_cell, say_drone
from lickwright.analysis.commentary.together import say_boogie, say_chord, say_unison_bend
from lickwright.analysis.commentary.walk import say_chromatic_walk, say_run, say_walk
from lickwright.analysis.entries import Analysis
from lickwright.analysis.role import Role

Say = Callable[[tuple[Item, ...], int], tuple[int, str] | None]
"""From the items of a voice and an index: how many items a figure takes there, and its text."""

FIGURES: tuple[Say, ...] = (
    say_no_chord,
    say_boogie,
    say_unison_bend,
    say_suspension,
    say_oblique,
    say_rocking,
    say_double_stops,
    say_chord,
    say_lean,
    say_anticipation,
    say_cell,
    say_broken,
    say_turn,
    say_drone,
    say_bend,
    say_blues_scale,
    say_enclosure,
    say_pentatonic,
    say_run,
    say_walk,
    say_neighbour,
    say_slurred,
    say_blue,
    say_approach,
    say_other,
)

DOUBT = "nothing explains it"
"""What an editor reads of a note without a role."""
LONG: tuple[Say, ...] = (say_blues_scale, say_pentatonic, say_run)
LEADING: tuple[Say, ...] = (say_enclosure, say_chromatic_walk, say_neighbour, say_slurred, say_suspension)
"""Figures that a long one gives up its last notes to."""


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
        for count, text in _parts(items):
            remarks.append(_remark(items, index, count, text))
            index += count
    return tuple(remarks)


def _parts(items: tuple[Item, ...]) -> Iterator[tuple[int, str]]:
    """The figures in order, and what lies between them."""
    index = plain = 0
    while index < len(items):
        found = _say(items, index)
        if found is None:
            index += 1
            continue
        yield from say_plain(items, plain, index)
        yield found
        index = plain = index + found[0]
    yield from say_plain(items, plain, index)


def _say(items: tuple[Item, ...], index: int) -> tuple[int, str] | None:
    """The first figure that fits; a long one gives up its last notes to a figure that begins on one."""
    for say in FIGURES:
        found = say(items, index)
        if found is None:
            continue
        end = index + found[0]
        if say in LONG:
            for begin in range(index + 1, end):
                if any((led := lead(items, begin)) and begin + led[0] > end for lead in LEADING):
                    return _say(items[:begin], index)
        return found
    return None


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
        text + say_grace(taken),
        notes,
        DOUBT if Role.UNEXPLAINED in {role.role for item in taken for role in item.roles} else "",
    )
