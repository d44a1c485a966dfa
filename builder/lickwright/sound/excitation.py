"""How a stroke, a finger or a fret sets a string going: the amplitude of each partial.

The laws are common practice (a string plucked at p of its length has partials as ``sin(k pi p)``); the
numbers are our own, from memory.
"""

import zlib

import numpy as np
import numpy.typing as npt

from lickwright.performance.event import Attack, StringEvent
from lickwright.sound.tables import Guitar

Floats = npt.NDArray[np.float64]

_ROUND = 0.03  # a pick or a fingertip is no point: no partial is quite missing


def excite(
    event: StringEvent,
    before: float | None,
    partial: Floats,
    hertz: float,
    *,
    guitar: Guitar,
    turn: int,
) -> Floats:
    """Amplitude that the event gives each partial.

    Args:
        event: What happens.
        before: Semitones of the stop that the string had just before, None when it was silent.
        partial: Numbers of the partials, shape (k,).
        hertz: Frequency of the fundamental at the onset.
        guitar: The instrument.
        turn: How many strokes the string has had: no two strokes touch quite the same place.

    Returns:
        Amplitudes, 0 for a late bend, shape (k,).
    """
    length = 2 ** (-event.stop / 12)
    frequency = partial * hertz
    hard = event.velocity
    stray = 1 + 0.12 * (_share(f"{event.string} {event.stop} {turn}") - 0.5)
    match event.attack:
        case Attack.PICK | Attack.DEAD | Attack.SCRAPE:
            bright = np.exp(-frequency / (900 + 5700 * hard))
            level = hard * _pluck(partial, guitar.pick * stray / length) * bright
            if event.stroke == "up":  # softer, and thinner: the pick leaves the string at a slant
                level = level * 0.85 * (1 + 0.35 * np.minimum(frequency / 4000, 1))
        case Attack.FINGER:
            bright = np.exp(-frequency / (700 + 3200 * hard))
            level = hard * _pluck(partial, 1.35 * guitar.pick * stray / length) * bright
        case Attack.HAMMER | Attack.TAP:
            # the fret strikes the string near its end: all partials alike, dulled by the fingertip
            level = (
                0.48 * hard * np.exp(-frequency / 2600) * (0.6 + 0.4 * _pluck(partial, guitar.pick / length))
            )
        case Attack.PULL:
            # plucked by the finger that leaves: as far from the new stop as the two frets are apart
            way = max((before if before is not None else event.stop + 2) - event.stop, 0.5)
            level = 0.62 * hard * _pluck(partial, 1 - 2 ** (-way / 12)) * np.exp(-frequency / 3400)
        case Attack.SLIDE:
            level = 0.16 * hard * np.exp(-frequency / 2200) * _pluck(partial, guitar.pick / length)
        case Attack.BEND:
            level = np.zeros_like(partial)
    if before is None and event.attack.legato:
        # nothing was sounding: the fret alone has to make the note
        level = level + 0.3 * hard * np.exp(-frequency / 1800) * _pluck(partial, guitar.pick / length)
    # flesh on the string takes the edge off the stroke too
    flesh = 1.0 if event.attack is Attack.DEAD else event.mute
    level = level * np.exp(-flesh * frequency / 1500)
    return np.asarray(level, np.float64)


def keep(event: StringEvent) -> float:
    """Share of the motion already in the string that the event leaves in it, 0..1."""
    return {Attack.HAMMER: 0.65, Attack.TAP: 0.4, Attack.PULL: 0.55, Attack.SLIDE: 0.9}.get(event.attack, 1.0)


def seed(key: str) -> int:
    """Seed for a random generator, the same for the same words on every machine."""
    return zlib.crc32(key.encode())


def _pluck(partial: Floats, place: float) -> Floats:
    shape = np.sin(np.pi * partial * min(place, 0.5))
    return np.asarray(shape + np.where(shape < 0, -_ROUND, _ROUND))


def _share(key: str) -> float:
    return seed(key) % 1009 / 1008
