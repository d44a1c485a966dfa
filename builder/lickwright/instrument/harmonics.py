"""Harmonics: where a string is touched and what then sounds.

Conventions: a touch is a fret, whole, or one tenth such as ``3.2``; a stopped harmonic is touched
at the same distances above the fretted note. Half steps count above the open or fretted note,
rounded to the tempered one; cents say how far the true partial lies from that.

References: partial k sounds 12 log2(k) half steps up and has its nodes at k/j of the length
(physics of the string); the usual touching points are common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from lickwright.theory.temperament import cents

NODES: dict[Fraction, int] = {
    Fraction(12): 2,
    Fraction(7): 3,
    Fraction(19): 3,
    Fraction(5): 4,
    Fraction(24): 4,
    Fraction(4): 5,
    Fraction(9): 5,
    Fraction(16): 5,
    Fraction("3.2"): 6,
    Fraction("2.7"): 7,
}
"""Touched fret, counted from the open or stopped end, to the partial that sounds."""

SEMITONES: dict[int, int] = {2: 12, 3: 19, 4: 24, 5: 28, 6: 31, 7: 34}
"""Partial to half steps above the string, as written."""


@dataclass(frozen=True, slots=True)
class Harmonic:
    """What sounds over a node.

    Attributes:
        partial: Number of the partial, 2 the octave.
        semitones: Half steps above the open or fretted note, as written.
        cents: The true partial against those half steps.
    """

    partial: int
    semitones: int
    cents: float


_HARMONICS = {
    touch: Harmonic(partial, SEMITONES[partial], cents(partial) - 100 * SEMITONES[partial])
    for touch, partial in NODES.items()
}


def node(touch: Fraction | int, stopped: int = 0) -> Harmonic | None:
    """What sounds when a string stopped at a fret is touched over another.

    Args:
        touch: The touched fret.
        stopped: The fretted one, 0 for a natural harmonic.

    Returns:
        The harmonic, or ``None`` where no node lies.
    """
    return _HARMONICS.get(Fraction(touch) - stopped)
