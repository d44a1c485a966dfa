"""The escape tone, left by leap; an appoggiatura, reached by leap, is an approach note."""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role


def find_escape(at: Moment) -> Role | None:
    """Reached by step from a stable note, left by leap the other way, off the beat."""
    if at.before is None or at.after is None or at.note.weight > 1:
        return None
    if not 1 <= abs(at.rise_in) <= 2 or abs(at.rise_out) <= 2:
        return None
    turns = (at.rise_in > 0) != (at.rise_out > 0)
    return Role.ESCAPE if turns and at.setting.stable(at.before) else None
