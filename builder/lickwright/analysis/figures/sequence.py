"""Patterns: a cell played again higher or lower, a side-slip among them."""

from __future__ import annotations

from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

SHORTEST = 3
LONGEST = 8


def find_pattern(at: Moment) -> Role | None:
    """Second pass: the note stands in a cell of 3 to 8 notes that repeats the notes before it elsewhere.

    The whole cell is moved by one interval in the same rhythm; all notes of the model are
    explained, and so is the note after the moved cell.
    """
    line, index, roles = at.line, at.index, at.roles
    for length in range(SHORTEST, LONGEST + 1):
        for first in range(max(length, index - length + 1), min(index, len(line) - length) + 1):
            moved = line[first].pitch - line[first - length].pitch
            if moved == 0:
                continue
            later = line[first].start - line[first - length].start
            if not all(_moved(line[n], line[n - length], moved, later) for n in range(first, first + length)):
                continue
            model = roles[first - length : first]
            after = first + length
            ends_well = after < len(line) and roles[after].explained
            if ends_well and all(role.explained for role in model):
                return Role.PATTERN
    return None


def _moved(note: LineNote, model: LineNote, by: int, later: int) -> bool:
    return (
        note.pitch - model.pitch == by
        and note.start - model.start == later
        and note.end - note.start == model.end - model.start
    )
