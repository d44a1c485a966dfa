"""How fast each partial dies.

The rate of a partial at f hertz is ``s0 + s1 f + s2 f^2``; s0 and s2 follow from the table's T60 of the
fundamental and at 5 kHz, s1 from flesh on the string. A shorter string dies sooner. Numbers are our own.
"""

import numpy as np
import numpy.typing as npt

from lickwright.performance.event import Attack
from lickwright.sound.life import Life
from lickwright.sound.pitch import ease
from lickwright.sound.tables import Material

Floats = npt.NDArray[np.float64]

SIXTY = float(np.log(1000.0))
"""Nepers in 60 dB: a rate of SIXTY / T60 falls by 60 dB in T60 seconds."""

_FINGER, _RESTRIKE = 0.045, 0.025  # T60 under a finger that damps, under the pick that strikes again, seconds
_SETTLE = 0.006  # seconds in which damping sets in
_DEAD = 3.0  # a dead note is damped like three palm mutes


def lose(life: Life, material: Material, edges: Floats, frequency: Floats, stop: Floats) -> Floats:
    """Loss of the partials since the life began.

    Args:
        life: What the string does.
        material: What it is made of.
        edges: Seconds, evenly spaced, shape (n,).
        frequency: Hz of the fundamental at the edges, shape (n,).
        stop: Semitones of the stop above the open string, shape (n,).

    Returns:
        Shape (n, 3): the loss in nepers of a partial with ratio r is ``a + b r + c r^2``.
    """
    low = SIXTY / ring(material, stop)
    high = SIXTY / (material.ring_5k * 2 ** (-stop / 30))
    curved = np.maximum(high - low, 0) / np.maximum(5000.0**2 - frequency**2, 1e6)
    even = low - curved * frequency**2
    flesh = np.zeros_like(even)

    mute = np.zeros_like(even)
    for event in life.events:
        damp = _DEAD if event.attack in {Attack.DEAD, Attack.SCRAPE} else event.mute
        mute[edges >= event.start - 1e-4] = damp
    even += 14 * mute
    flesh += 0.03 * mute

    damped = ease((edges - life.end) / _SETTLE)
    even += damped * SIXTY / (_RESTRIKE if life.struck else _FINGER)
    flesh += damped * 0.02

    rates = np.stack((even, flesh * frequency, curved * frequency**2), axis=1)
    lost = np.zeros_like(rates)
    lost[1:] = np.cumsum((rates[1:] + rates[:-1]) / 2, axis=0) * (edges[1] - edges[0])
    return lost


def ring(material: Material, stop: Floats) -> Floats:
    """T60 of the fundamental with the string stopped ``stop`` semitones up, seconds."""
    return np.asarray(material.ring * 2 ** (-stop / 14))
