"""The fast sum against sines written out."""

import numpy as np

from lickwright.sound.partials import BLOCK, sum_partials
from lickwright.sound.tables import RATE


def test_blocks_and_sines_agree() -> None:
    """Steady runs by the addition theorem and moving blocks by sines equal a plain float64 sum of sines."""
    blocks = 60
    frequency = np.full(blocks, 220.0)
    frequency[20:35] += np.arange(15) * 3.0  # a bend in the middle
    frequency[35:] = frequency[34]
    phase = np.concatenate(([0.0], np.cumsum(frequency)[:-1])) * BLOCK / RATE
    ratio = np.array([1.0, 2.001, 3.004, 17.2])
    edges = np.exp(-np.outer(np.arange(blocks + 1), [0.01, 0.02, 0.03, 0.05])).astype(np.float32)
    sound = sum_partials(phase, frequency, ratio, edges)
    held = np.repeat(frequency, BLOCK)
    cycles = np.concatenate(([0.0], np.cumsum(held)[:-1])) / RATE
    moments = np.arange(blocks * BLOCK) / BLOCK
    plain = sum(
        np.interp(moments, np.arange(blocks + 1), edges[:, k]) * np.sin(2 * np.pi * ratio[k] * cycles)
        for k in range(4)
    )
    assert np.abs(sound - plain).max() < 1e-4
