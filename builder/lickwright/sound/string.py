"""The modal string: partials that are stretched by stiffness and die each at its own rate.

Fletcher's stretched partials ``r_k = k sqrt((1 + B k^2) / (1 + B))`` (from memory), so that ``r_1 = 1``: the
written pitch is the fundamental's. A plucked string swings in two planes, one of which the bridge drains
sooner: of each amplitude a quarter dies three times as fast as the rest.
"""

import numpy as np
import numpy.typing as npt

from lickwright.sound.decay import lose
from lickwright.sound.excitation import excite, keep
from lickwright.sound.life import Life
from lickwright.sound.partials import BLOCK, sum_partials
from lickwright.sound.pitch import ease, track_pitch, track_stop
from lickwright.sound.tables import RATE, Guitar

Floats = npt.NDArray[np.float64]
Samples = npt.NDArray[np.float32]

DAMPING = 0.065
"""Seconds that a life goes on sounding after its end, at most."""

_CHUNK = 256  # blocks worked on at a time: bounds the memory, and lets dead partials be left out
_FLOOR = 2e-4  # a partial this far under the loudest is silent (-74 dB)
_SILENT = 3e-6  # under this the string is silent
_STEP = 0.1  # cents; pitch is held to this grid so that a steady note is one frequency to the bit
_RISE = 0.0015  # seconds in which a hammered or pulling finger takes effect
_CLOSE = 0.025  # seconds of fading at the end of a life, when it is damped already
_PARTIALS = 110
_EVEN, _BALANCE = 52, 48  # MIDI pitch of an open string at level 1; semitones up for twice that


def sound_life(life: Life, guitar: Guitar, limit: float) -> Samples:
    """Sound one life of a string.

    Args:
        life: What the string does.
        guitar: The instrument.
        limit: Seconds of the performance after which nothing is needed.

    Returns:
        Samples from the first onset on, before the tone of pickup and body; length a multiple of 32.
    """
    blocks = int(np.ceil((min(life.end + DAMPING, limit) - life.start) * RATE / BLOCK))
    if blocks < 1:
        return np.zeros(0, np.float32)
    edges: Floats = life.start + np.arange(blocks + 1, dtype=np.float64) * (BLOCK / RATE)
    cents = track_pitch(life.events, edges[:-1] + BLOCK / RATE / 2)
    frequency = 440 * 2 ** ((life.open - 69) / 12) * 2 ** (np.rint(cents / _STEP) * _STEP / 1200)
    phase = np.concatenate(([0.0], np.cumsum(frequency)[:-1])) * (BLOCK / RATE)
    stop = track_stop(life.events, edges)

    material = guitar.material(life.open)
    partial = _number(life, guitar, float(frequency.min()))
    stiffness = material.inharmonicity * 2 ** (float(np.median(stop)) / 6)
    ratio = partial * np.sqrt((1 + stiffness * partial**2) / (1 + stiffness))
    powers = np.stack((np.ones_like(ratio), ratio, ratio**2))

    lost = lose(life, material, edges, np.append(frequency, frequency[-1]), stop)
    strokes = _strike(life, guitar, edges, frequency, partial)
    volume = _open(life, edges)
    place = None if guitar.pickup is None else np.minimum(guitar.pickup * 2 ** (stop / 12), 0.5) * np.pi

    sound = np.zeros(blocks * BLOCK, np.float32)
    for first in range(0, blocks, _CHUNK):
        last = min(first + _CHUNK, blocks)
        here = slice(first, last + 1)
        amplitude = np.zeros((last + 1 - first, len(partial)), np.float32)
        for begin, weight, level in strokes:
            if begin > last:
                break
            since = np.maximum(lost[here] - lost[begin], 0)
            if weight[here].max() * np.abs(level).max() * np.exp(-float(since[0] @ powers[:, 0])) < _SILENT:
                continue
            slow = np.exp(-(since @ powers).astype(np.float32))
            slow *= 0.75 + 0.25 * slow * slow
            amplitude += slow * level * weight[here, None]
        if place is not None:
            amplitude *= np.sin(np.outer(place[here], partial).astype(np.float32))
        amplitude *= volume[here, None]
        loud = np.abs(amplitude)
        alive = np.flatnonzero(loud.max(axis=0) > max(loud.max() * _FLOOR, _SILENT))
        if not len(alive):
            continue
        many = int(alive[-1]) + 1
        amplitude = amplitude[:, :many]
        # partials that will be left out of the next chunk fade in this one: no marker at their end
        ending = loud[-1, :many] < max(loud[-1].max() * _FLOOR, _SILENT)
        amplitude[:, ending] *= np.linspace(1, 0, len(amplitude), dtype=np.float32)[:, None]
        sound[first * BLOCK : last * BLOCK] = sum_partials(
            phase[first:last], frequency[first:last], ratio[:many], amplitude
        )
    return sound


def _number(life: Life, guitar: Guitar, lowest: float) -> Floats:
    """Numbers of the partials that sound: all, or the multiples of the one that is touched."""
    step = life.events[0].harmonic or 1
    top = max(step, min(_PARTIALS, int(guitar.highest / lowest)))
    return np.arange(step, top + 1, step).astype(np.float64)


def _strike(
    life: Life, guitar: Guitar, edges: Floats, frequency: Floats, partial: Floats
) -> list[tuple[int, Samples, Samples]]:
    """Block, weight over time and partial amplitudes of each event that gives the string energy."""
    strokes: list[tuple[int, Samples, Samples]] = []
    before: float | None = None
    for event in life.events:
        block = min(round((event.start - life.start) * RATE / BLOCK), len(frequency) - 1)
        level = excite(event, before, partial, float(frequency[block]), guitar=guitar, turn=life.turn)
        level *= partial**-guitar.tilt * 2 ** ((life.open - _EVEN) / _BALANCE)
        taken = np.ones_like(edges)
        if before is not None:
            taken = np.clip((edges - edges[block]) / _RISE, 0, 1)
            left = 1 - (1 - keep(event)) * taken
            strokes = [(begin, (weight * left).astype(np.float32), old) for begin, weight, old in strokes]
        strokes.append((block, taken.astype(np.float32), level.astype(np.float32)))
        before = event.arrival
    return strokes


def _open(life: Life, edges: Floats) -> Samples:
    """Volume over time: swells, and the last fading of a string that is damped already."""
    volume: Floats = np.clip((edges[-1] - edges) / _CLOSE, 0, 1)
    for event in life.events:
        if event.swell > 0:
            volume *= np.where(edges >= event.start, ease((edges - event.start) / event.swell), 1)
    return np.asarray(volume, np.float32)
