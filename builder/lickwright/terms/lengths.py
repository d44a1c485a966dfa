"""Note values by name, in quarters: ``dotted quarter``; and how long that is, as players say it."""

from __future__ import annotations

from fractions import Fraction

LENGTHS: dict[Fraction, str] = {
    Fraction(6): "dotted whole",
    Fraction(4): "whole",
    Fraction(3): "dotted half",
    Fraction(2): "half",
    Fraction(3, 2): "dotted quarter",
    Fraction(1): "quarter",
    Fraction(3, 4): "dotted eighth",
    Fraction(1, 2): "eighth",
    Fraction(3, 8): "dotted sixteenth",
    Fraction(1, 4): "sixteenth",
    Fraction(1, 8): "thirty-second",
    Fraction(4, 3): "triplet half",
    Fraction(2, 3): "triplet quarter",
    Fraction(1, 3): "triplet eighth",
    Fraction(1, 6): "triplet sixteenth",
}
"""Lengths that have a name."""

_TIED = tuple(sorted((length for length, name in LENGTHS.items() if " " not in name), reverse=True))
_NOTES = ("whole", "half")
"""Names that are something else without the word note: a half is half of anything."""


def say_length(quarters: Fraction) -> str:
    """Return a length as a player says it, with its article; one of two values names both.

    >>> say_length(Fraction(1, 2)), say_length(Fraction(3)), say_length(Fraction(5, 2))
    ('an eighth', 'a dotted half note', 'a half note and an eighth')
    """
    if quarters in LENGTHS:
        return _name(quarters)
    longest = next((length for length in _TIED if length < quarters), None)
    if longest is not None and quarters - longest in LENGTHS:
        return f"{_name(longest)} and {_name(quarters - longest)}"
    return f"{quarters} {'quarters' if quarters > 1 else 'of a quarter'}"


def _name(quarters: Fraction) -> str:
    name = LENGTHS[quarters]
    note = " note" if name.endswith(_NOTES) else ""
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}{note}"
