"""Swing: where the written eighths of a shuffle are played.

Conventions: the second eighth of each quarter comes at two thirds of it and the
sixteenths halve the eighth they lie in (the language contract); compound meters
stay as written.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from lickwright.theory.meter import Meter

_HALF = Fraction(1, 2)
_LATE = Fraction(2, 3)


def swing(offset: Fraction) -> Fraction:
    """Return the played place of a written place, both in quarters from a beat.

    >>> swing(Fraction(3, 2))
    Fraction(5, 3)
    """
    beat, within = divmod(offset, 1)
    if within <= _HALF:
        return beat + within * _LATE / _HALF
    return beat + _LATE + (within - _HALF) * (1 - _LATE) / (1 - _HALF)


def swings(feel: str, meter: Meter) -> bool:
    """True when this feel moves the eighths of this meter."""
    return feel == "shuffle" and not meter.is_compound


@lru_cache(maxsize=4096)
def played(offset: Fraction, base: Fraction, *, swung: bool) -> Fraction:
    """Return how long after the start of its bar a written place is played.

    Args:
        offset: Quarters from the start of the bar as written.
        base: Where in a whole bar this bar begins (a pickup, a cut bar).
        swung: Whether the eighths swing.
    """
    return swing(base + offset) - swing(base) if swung else offset
