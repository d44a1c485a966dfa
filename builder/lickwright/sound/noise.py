"""What is heard of a note besides its pitch: the pick's click, a fret's knock, fingers over windings.

All noise comes from PCG64 generators seeded by the words that describe it: same note, same noise.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from lickwright.performance.event import Attack, Glide, StringEvent
from lickwright.sound.excitation import seed
from lickwright.sound.life import Life
from lickwright.sound.tables import RATE, Guitar

Samples = npt.NDArray[np.float32]


def make_noises(life: Life, guitar: Guitar) -> Iterator[tuple[float, Samples]]:
    """Noises of one life as (seconds of the performance, samples)."""
    wound = guitar.material(life.open).wound
    for event in life.events:
        if event.swell:  # the volume is down when the string is struck
            continue
        key = f"{event.string} {event.stop} {event.attack.value} {life.turn}"
        match event.attack:
            case Attack.PICK | Attack.FINGER | Attack.DEAD:
                yield event.start, _click(event, guitar, key)
            case Attack.HAMMER | Attack.TAP:
                burst = colour(key, 0.03, 180, 1600) * _die(0.03, 0.006)
                yield event.start, (0.25 * guitar.click * event.velocity * burst).astype(np.float32)
            case Attack.SCRAPE:
                yield event.start, _scrape(event, guitar, key)
            case _:
                pass
        if wound:
            for glide in event.glides:
                yield event.start + glide.at, _squeak(glide, guitar, key)


def colour(key: str, seconds: float, low: float, high: float) -> Samples:
    """Noise between ``low`` and ``high`` Hz, root mean square 1."""
    count = max(16, round(seconds * RATE))
    size = 1 << (count - 1).bit_length()
    spectrum = np.fft.rfft(np.random.Generator(np.random.PCG64(seed(key))).standard_normal(size))
    hertz = np.maximum(np.fft.rfftfreq(size, 1 / RATE), 1e-3)
    spectrum *= 1 / np.sqrt((1 + (low / hertz) ** 4) * (1 + (hertz / high) ** 4))
    burst = np.fft.irfft(spectrum, size)[:count]
    return np.asarray(burst / np.sqrt(np.mean(burst**2)), np.float32)


def _die(seconds: float, time: float) -> Samples:
    """Decay to 1/e in ``time``, begun and ended at nothing."""
    count = max(16, round(seconds * RATE))
    shape = np.exp(-np.arange(count) / (time * RATE)) * np.linspace(1, 0, count)
    shape[:4] *= np.linspace(0, 1, 4)
    return shape.astype(np.float32)


def _click(event: StringEvent, guitar: Guitar, key: str) -> Samples:
    dead = event.attack is Attack.DEAD
    if event.attack is Attack.FINGER:
        level, low, high = 0.3, 500, 3000
    else:
        level, low, high = (1.3 if event.stroke == "up" else 1.0), 1500, 7000
    if dead:
        level, low = 2.5 * level, 300
    time = 0.006 if dead else 0.0022
    burst = colour(key, 6 * time, low, high) * _die(6 * time, time)
    return (guitar.click * level * event.velocity * burst).astype(np.float32)


def _squeak(glide: Glide, guitar: Guitar, key: str) -> Samples:
    seconds = max(glide.seconds, 0.02)
    speed = min(abs(glide.end - glide.begin) / seconds / 40, 1.5)
    burst = colour(key + " squeak", seconds, 1800, 5500)
    return np.asarray(guitar.squeak * speed * np.hanning(len(burst)) * burst, np.float32)


def _scrape(event: StringEvent, guitar: Guitar, key: str) -> Samples:
    seconds = min(max(event.end - event.start, 0.05), 0.6)
    burst = colour(key, seconds, 700, 6000)
    time = np.arange(len(burst)) / RATE
    # the pick falls from winding to winding, slower and slower
    ticks = 2 * np.pi * (260 * time - 110 * time**2 / seconds)
    shape = (0.55 + 0.45 * np.cos(ticks)) * np.hanning(len(burst)) ** 0.5
    return np.asarray(2.0 * guitar.click * event.velocity * shape * burst, np.float32)
