"""Figures with a leap in them: escape tone, cambiata, appoggiatura."""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

LEAP = 3
"""Half steps from which a move is a leap."""
THIRDS = (3, 4)


def find_escape(at: Moment) -> Role | None:
    """Reached by step from a stable note, left by leap the other way, off the beat."""
    if at.before is None or at.after is None or at.note.weight > 1:
        return None
    if not 1 <= abs(at.rise_in) <= 2 or abs(at.rise_out) <= 2:
        return None
    turns = (at.rise_in > 0) != (at.rise_out > 0)
    return Role.ESCAPE if turns and at.setting.stable(at.before) else None


def find_cambiata(at: Moment) -> Role | None:
    """A note of the key, stepped to from a stable note, left by a third the same way, which turns back.

    The four-note figure of counterpoint, down or up: 8 7 5 6, 1 2 4 3; the note after next is stable.
    """
    if not at.in_key or at.before is None or at.after is None or at.second is None:
        return None
    if not 1 <= abs(at.rise_in) <= 2 or abs(at.rise_out) not in THIRDS:
        return None
    back = at.second.pitch - at.after.pitch
    onward = (at.rise_in > 0) == (at.rise_out > 0)
    turns = 1 <= abs(back) <= 2 and (back > 0) != (at.rise_out > 0)
    setting = at.setting
    if not (onward and turns and setting.stable(at.before)):
        return None
    return Role.CAMBIATA if setting.stable(at.second) or setting.stable(at.after) else None


def find_appoggiatura(at: Moment) -> Role | None:
    """A note of the key on a beat, leapt to from a stable note, that steps back to a stable one."""
    if not at.in_key or at.before is None or at.after is None or at.note.weight < 2:
        return None
    if abs(at.rise_in) < LEAP or not 1 <= abs(at.rise_out) <= 2:
        return None
    if (at.rise_in > 0) == (at.rise_out > 0) or at.after.weight > at.note.weight:
        return None
    setting = at.setting
    return Role.APPOGGIATURA if setting.stable(at.before) and setting.stable(at.after) else None
