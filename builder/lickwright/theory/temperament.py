"""Equal temperament.

Conventions: pitch as a MIDI number, C4 = 60, fractions are parts of a half step; frequency in Hz.

References: ISO 16:1975 for A4 = 440 Hz, the MIDI 1.0 note numbers (both from memory).
"""

from __future__ import annotations

from math import log2

A4_MIDI = 69
A4_HERTZ = 440.0


def hertz(midi: float, a4: float = A4_HERTZ) -> float:
    """Frequency of a MIDI number in Hz, ``a4 * 2 ** ((midi - 69) / 12)``."""
    return float(a4 * 2.0 ** ((midi - A4_MIDI) / 12.0))


def cents(ratio: float) -> float:
    """Size of a frequency ratio in cents, 1200 an octave."""
    return 1200.0 * log2(ratio)
