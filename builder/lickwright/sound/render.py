"""From a performance to samples."""

import numpy as np
import numpy.typing as npt

from lickwright.performance.event import Performance
from lickwright.sound.chain import play
from lickwright.sound.life import part_lives
from lickwright.sound.limit import limit
from lickwright.sound.noise import make_noises
from lickwright.sound.string import sound_life
from lickwright.sound.tables import GUITARS, RATE

Samples = npt.NDArray[np.float32]


def render(performance: Performance) -> Samples:
    """Sound a performance: strings, amplifier or body, room, fixed gain.

    Args:
        performance: Any tuning of any number of strings.

    Returns:
        Mono samples at 44,100 Hz, within -1 dBTP, shape ``(count_samples(performance),)``.
    """
    samples = pluck(performance)
    play(samples, GUITARS[performance.instrument])
    limit(samples)
    return samples


def pluck(performance: Performance) -> Samples:
    """Sound the strings alone, without amplifier, body and room; shape as from :func:`render`."""
    guitar = GUITARS[performance.instrument]
    total = count_samples(performance)
    samples = np.zeros(total, np.float32)
    for life in part_lives(performance):
        _add(samples, life.start, sound_life(life, guitar, total / RATE))
        for moment, noise in make_noises(life, guitar):
            _add(samples, moment, noise)
    return samples


def count_samples(performance: Performance) -> int:
    """Length of the sound, samples: bars and tail, to the nearest sample."""
    return round((performance.length + performance.tail) * RATE)


def _add(samples: Samples, moment: float, sound: Samples) -> None:
    first = round(moment * RATE)
    if first < 0:
        sound, first = sound[-first:], 0
    room = samples[first : first + len(sound)]
    room += sound[: len(room)]
