"""The limiter: no peak passes, quiet stretches stay as they are."""

import numpy as np
from laboratory import RATE

from lickwright.sound.limit import limit
from lickwright.sound.tables import CEILING


def test_peaks_are_held_and_the_rest_is_left_to_the_bit() -> None:
    """A burst in the middle of a quiet tone is held; a second away nothing has changed."""
    for count in (3 * RATE, 3 * RATE + 7, 33, 31):
        time = np.arange(count) / RATE
        tone = (0.2 * np.sin(2 * np.pi * 440 * time)).astype(np.float32)
        loud = tone.copy()
        loud[count // 2 : count // 2 + 300] *= 20
        held = loud.copy()
        limit(held)
        assert np.abs(held).max() <= CEILING
        assert np.array_equal(held[: max(0, count // 2 - RATE)], loud[: max(0, count // 2 - RATE)])
        assert len(held) == count
        quiet = tone.copy()
        limit(quiet)
        assert np.array_equal(quiet, tone)
    limit(np.zeros(0, np.float32))


def test_the_gain_moves_smoothly() -> None:
    """No step of the gain is over a hundredth from sample to sample."""
    tone = np.full(RATE, 0.3, np.float32)
    tone[20_000:20_010] = 3.0
    before = tone.copy()
    limit(tone)
    gain = tone / before
    assert gain.min() < 0.2
    assert np.abs(np.diff(gain)).max() < 0.01
