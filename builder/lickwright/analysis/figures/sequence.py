"""Patterns: a cell played again higher or lower, once or several times; a side-slip among them."""

from __future__ import annotations

from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

SHORTEST = 3
LONGEST = 8
COPIES = 4
"""How often a cell is moved on, at the most."""


def find_pattern(at: Moment, shortest: int = SHORTEST) -> Role | None:
    """Second pass: the note stands in a cell of 3 to 8 notes that repeats the notes before it elsewhere.

    The whole cell is moved by one interval in the same rhythm, note by note (a side-slip), or along the
    key's scale (a sequence: every interval of it at most a half step larger or smaller); it may
    be moved on again, by whatever interval. All notes of the first cell are
    explained, and so is the note on which the last one ends up.
    """
    for length in range(shortest, LONGEST + 1):
        for first in range(max(0, at.index - COPIES * length - length + 1), at.index - length + 1):
            if _explains(at, first, length):
                return Role.PATTERN
    return None


def _explains(at: Moment, first: int, length: int) -> bool:
    """Whether the cell that begins at ``first`` is moved on over the note, and ends well."""
    line, roles = at.line, at.roles
    if not all(role.explained for role in roles[first : first + length]):
        return False
    cell = first
    for _ in range(COPIES):
        after = cell + 2 * length
        if after >= len(line) or not _moved(at, cell, length):
            return False
        cell += length
        if at.index < after and roles[after].explained and cell <= at.index:
            return True
    return False


def _moved(at: Moment, cell: int, length: int) -> bool:
    line = at.line
    model, copy = line[cell : cell + length], line[cell + length : cell + 2 * length]
    by = copy[0].pitch - model[0].pitch
    later = copy[0].start - model[0].start
    if not all(_in_rhythm(a, b, later) for a, b in zip(model, copy, strict=True)):
        return False
    shifts = [b.pitch - a.pitch for a, b in zip(model, copy, strict=True)]
    if shifts[0] != 0 and len({*shifts}) == 1:
        return True
    scale = at.setting.scale
    return (
        all(shifts)
        and len({shift > 0 for shift in shifts}) == 1
        and all(abs(shift - by) <= 1 for shift in shifts)
        and all(scale[note.pitch % 12] for note in copy)
    )


def _in_rhythm(model: LineNote, note: LineNote, later: int) -> bool:
    return note.start - model.start == later and note.end - note.start == model.end - model.start
