"""Notes led in and out by step: passing and neighbour notes. A step is one or two half steps."""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role


def find_passing(at: Moment) -> Role | None:
    """In by step and out by step in the same direction; the note may be repeated once."""
    rise_in, rise_out = _through_repeat(at)
    if 1 <= abs(rise_in) <= 2 and 1 <= abs(rise_out) <= 2 and (rise_in > 0) == (rise_out > 0):
        return Role.PASSING
    return None


def find_neighbour(at: Moment) -> Role | None:
    """Out by step and back again, to the same pitch."""
    rise_in, rise_out = _through_repeat(at)
    return Role.NEIGHBOUR if 1 <= abs(rise_in) <= 2 and rise_in == -rise_out else None


def _through_repeat(at: Moment) -> tuple[int, int]:
    rise_in, rise_out = at.rise_in, at.rise_out
    if rise_in == 0 and rise_out and at.before is not None and at.index > 1:
        rise_in = at.pitch - at.line[at.index - 2].pitch
    elif rise_out == 0 and rise_in and at.second is not None:
        rise_out = at.second.pitch - at.pitch
    return rise_in, rise_out


def find_chain(at: Moment) -> Role | None:
    """Second pass: the note begins a run of half steps in one direction to an explained note."""
    if at.after is None or abs(at.rise_out) != 1:
        return None
    following = at.roles[at.index + 1]
    if following in (Role.PASSING, Role.APPROACH) and at.second is not None:
        onward = at.second.pitch - at.after.pitch
        return Role.APPROACH if onward == at.rise_out else None
    return None
