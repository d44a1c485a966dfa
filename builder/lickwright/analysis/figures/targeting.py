"""Notes that aim at the one they lead to: approach notes, enclosures, tensions that resolve."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

LONGEST_ENCLOSURE = 4
"""Notes before the target."""


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
    """The target lies between this note and its neighbours on the other side, at most two half steps off.

    A note that closes an enclosure may step to the target by a whole step. With three or four
    notes round the target two of them stand a half step apart.
    """
    after = at.after
    if after is None:
        return None
    before = at.before
    if before is not None and 1 <= abs(at.rise_out) <= 2 and at.setting.stable(after):
        other = after.pitch - before.pitch
        if 1 <= abs(other) <= 2 and (other > 0) != (at.rise_out > 0):
            return Role.ENCLOSURE
    around = [at.pitch, after.pitch]
    for target in (at.second, at.third, _fourth(at)):
        if target is None:
            return None
        if _encloses(around, target.pitch) and at.setting.stable(target):
            return Role.ENCLOSURE
        around.append(target.pitch)
    return None


def _fourth(at: Moment) -> LineNote | None:
    index = at.index + 4
    return at.line[index] if at.third is not None and index < len(at.line) else None


def _encloses(around: list[int], target: int) -> bool:
    offsets = [pitch - target for pitch in around]
    if any(not 1 <= abs(offset) <= 2 for offset in offsets):
        return False
    if (offsets[0] > 0) == (offsets[1] > 0) and len(offsets) == 2:
        return False
    if len({offset > 0 for offset in offsets}) == 1:
        return False
    return len(offsets) == 2 or any(abs(b - a) == 1 for a, b in pairwise(offsets))


def find_resolved(at: Moment) -> Role | None:
    """A conditional tension: one of the next two notes is stable and at most two half steps away."""
    if at.relation != "c":
        return None
    for later in (at.after, at.second):
        if later is not None and 1 <= abs(later.pitch - at.pitch) <= 2 and at.setting.stable(later):
            return Role.RESOLVED
    return None
