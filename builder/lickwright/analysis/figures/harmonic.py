"""Notes that the chord or the key explains by itself.

A tension is free where the key has it, over a dominant, and as the ninth, or the seventh of a minor
chord, anywhere.
"""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role


def find_chord_tone(at: Moment) -> Role | None:
    """A tone of the chord, stated alterations and a slash bass among them."""
    return Role.CHORD_TONE if at.relation == "t" else None


def find_tension(at: Moment) -> Role | None:
    """A tension that needs no resolution."""
    if at.relation != "f":
        return None
    above = (at.pitch - at.over.root) % 12
    plain = above == 2 or (above == 10 and at.over.minor)
    return Role.TENSION if at.in_key or at.over.dominant or plain else None


def find_scale_tone(at: Moment) -> Role | None:
    """A note of the key that does not rub against the chord."""
    return Role.SCALE_TONE if at.in_key and at.relation in ".f" else None


def find_weak(at: Moment) -> Role | None:
    """A note of the key that would rub if it were held: but it is short, or off the strong beats.

    A colour that only asks for resolution (the sharp eleventh over the fourth degree's chord)
    is a scale tone like any other when the key has it.
    """
    if not at.in_key:
        return None
    short = at.note.end - at.note.start < at.setting.beat
    return Role.WEAK if at.relation == "c" or at.note.weight <= 2 or short else None
