"""Fret geometry in millimetres.

Conventions: frets count from the capo, places are measured from the nut.

References: the twelfth root of two, ``x(n) = L * (1 - 2 ** (-n / 12))``; common scale lengths are
648 mm (25.5 in), 628 mm (24.75 in) and 650 mm (classical), common practice.
"""

from __future__ import annotations


def fret_position(fret: float, scale_length: float, capo: int = 0) -> float:
    """Distance of a fret from the nut in mm; parts of a fret lie in proportion of pitch."""
    return float(scale_length * (1.0 - 2.0 ** (-(capo + fret) / 12.0)))


def span(a: float, b: float, scale_length: float, capo: int = 0) -> float:
    """Distance between two frets in mm, in either order."""
    return abs(fret_position(b, scale_length, capo) - fret_position(a, scale_length, capo))
