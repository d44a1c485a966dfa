"""Notes that belong to the chord before or after: anticipation, suspension, retardation."""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

ROCKING = 2
"""Notes back to where a rocking note was before."""


def find_anticipation(at: Moment) -> Role | None:
    """A tone of the next chord, at most a beat early: held into it, struck again with it, or just before it.

    Just before is half a beat at most. It is the last note before the change: with another note between
    it is heard with that one. A note of the key that steps through to another note at the change is on its
    way there, and one that rocks to and fro over its own chord was there before.
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
    line, index = at.line, at.index
    after = line[index + 1] if index + 1 < len(line) else None
    if after is not None and after.start < coming.start:
        return None
    if after is not None and after.pitch == at.pitch and after.start == coming.start:
        return Role.ANTICIPATION
    if 2 * early > beat or (through and at.in_key) or _rocks(at):
        return None
    return Role.ANTICIPATION


def _rocks(at: Moment) -> bool:
    """Whether it comes back to a note that its own chord bears, one other note between."""
    if at.relation != "f" or at.index < ROCKING:
        return False
    earlier = at.line[at.index - ROCKING]
    return earlier.pitch == at.pitch and earlier.chord == at.note.chord and earlier.bar == at.note.bar


def foretells(at: Moment) -> bool:
    """Whether it is the last note before a change, at most a beat early, and a tone of the new chord."""
    coming = at.setting.following(at.note)
    if coming is None or coming.relation[at.pitch % 12] != "t":
        return False
    after = at.line[at.index + 1] if at.index + 1 < len(at.line) else None
    last = after is None or after.start >= coming.start
    return last and coming.start - at.note.start <= at.setting.beat


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
