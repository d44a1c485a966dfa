"""Notes that belong to the chord before or after: anticipation, suspension, retardation."""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role


def find_anticipation(at: Moment) -> Role | None:
    """A tone of the next chord, at most a beat early: held into it, or at most half a beat before it.

    A note of the key that steps through to another note at the change is on its way there, and
    no anticipation.
    """
    coming = at.setting.following(at.note)
    if coming is None or coming.relation[at.pitch % 12] != "t":
        return None
    early = coming.start - at.note.start
    beat = at.setting.beat
    if early > beat:
        return None
    if at.note.end > coming.start:
        return Role.ANTICIPATION
    through = (
        1 <= abs(at.rise_in) <= 2 and 1 <= abs(at.rise_out) <= 2 and (at.rise_in > 0) == (at.rise_out > 0)
    )
    if 2 * early > beat or (through and at.in_key):
        return None
    return Role.ANTICIPATION


def find_suspension(at: Moment) -> Role | None:
    """A tone of the chord before, repeated within a beat of the change, that then steps to rest."""
    note, before, after = at.note, at.before, at.after
    if note.chord == 0 or before is None or after is None:
        return None
    if before.pitch != at.pitch or not 1 <= abs(at.rise_out) <= 2:
        return None
    if note.start - at.over.start > at.setting.beat:
        return None
    left = at.setting.changes[note.chord - 1]
    if left.relation[at.pitch % 12] != "t" or not at.setting.stable(after):
        return None
    return Role.SUSPENSION if at.rise_out < 0 else Role.RETARDATION
