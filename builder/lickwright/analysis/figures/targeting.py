"""Notes that aim at the one they lead to: approach notes, enclosures, tensions that resolve."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

LONGEST_ENCLOSURE = 4
"""Notes before the target."""
_SIDES = (-2, -1, 1, 2)


def find_approach(at: Moment) -> Role | None:
    """A half step from a note at rest, a diatonic whole step from a stable one, or two half steps on."""
    after = at.after
    if after is None:
        return None
    away = abs(at.rise_out)
    setting = at.setting
    if away == 1:
        if setting.stable(after) or _at_rest(at, after):
            return Role.APPROACH
        second = at.second
        double = second is not None and second.pitch - after.pitch == at.rise_out and setting.stable(second)
        return Role.APPROACH if double else None
    return Role.APPROACH if away == 2 and at.in_key and setting.stable(after) else None


def _at_rest(at: Moment, note: LineNote) -> bool:
    """A free tension or a note of the key that does not rub."""
    relation = at.setting.relation(note)
    in_key = at.setting.scale[note.pitch % 12]
    if relation == "f":
        over = at.setting.changes[note.chord]
        return in_key or over.dominant or (note.pitch - over.root) % 12 == 2
    return in_key and relation == "."


def find_enclosure(at: Moment) -> Role | None:
    """The note stands in an enclosure: two to four notes round a stable target that follows them.

    All lie within a whole step of the target, on both sides of it. Two notes: one from either side; three:
    two from one side and one from the other; four: two and two, where the notes of a pair
    follow each other. A chromatic note of it stands a half step from the target or from
    the other note of its pair: ``2 7 1``, ``2 b2 7 1``, ``b7 7 2 b2 1``.

    References: enclosures as jazz teaching names them (Coker, Baker, from memory).
    """
    line, index = at.line, at.index
    for length in range(2, LONGEST_ENCLOSURE + 1):
        for first in range(max(0, index - length + 1), index + 1):
            target = first + length
            if target >= len(line):
                break
            if at.joined(first, target) and at.setting.stable(line[target]) and _encloses(at, first, target):
                return Role.ENCLOSURE
    return None


def _encloses(at: Moment, first: int, target: int) -> bool:
    goal = at.line[target].pitch
    around = [at.line[i].pitch - goal for i in range(first, target)]
    if any(offset not in _SIDES for offset in around):
        return False
    turns = sum((a > 0) != (b > 0) for a, b in pairwise(around))
    if turns != 1 or (len(around) == 4 and (around[1] > 0) != (around[0] > 0)):
        return False
    if len(around) == 4 and (around[2] > 0) != (around[3] > 0):
        return False
    if len({*around}) != len(around):
        return False
    offset = at.pitch - goal
    if abs(offset) == 1 or at.in_key:
        return True
    return (1 if offset > 0 else -1) in around  # its pair lies between it and the target


def find_resolved(at: Moment) -> Role | None:
    """A conditional tension: one of the next two notes is stable and at most two half steps away."""
    if at.relation != "c":
        return None
    for later in (at.after, at.second):
        if later is not None and 1 <= abs(later.pitch - at.pitch) <= 2 and at.setting.stable(later):
            return Role.RESOLVED
    return None
