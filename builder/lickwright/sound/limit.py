"""The limiter: catches the rare peak above the ceiling; level is fixed, never set by the file."""

import numpy as np
import numpy.typing as npt

from lickwright.sound.tables import CEILING

Samples = npt.NDArray[np.float32]

_HOP = 32  # samples for which one gain is worked out
_REACH = 32  # hops over which the gain falls before a peak and rises after it (23 ms)
_BETWEEN = 0.94  # peaks between the samples may rise this much over them in so dark a sound (-0.5 dB)


def limit(samples: Samples) -> None:
    """Hold the samples under the ceiling, in place; a sound that stays under it is left to the bit."""
    top = CEILING * _BETWEEN
    hops = -(-len(samples) // _HOP)
    peaks = np.zeros(hops * _HOP, np.float32)
    np.abs(samples, out=peaks[: len(samples)])
    need = np.minimum(1, top / np.maximum(peaks.reshape(hops, _HOP).max(axis=1, initial=0), 1e-9))
    if not len(need) or need.min() >= 1:
        return
    # held over all of the smoothing's span, so that the gain is nowhere above what is needed
    padded = np.pad(need, 2 * _REACH, constant_values=1.0)
    held = np.lib.stride_tricks.sliding_window_view(padded, 2 * _REACH + 1).min(axis=1)
    gain = _smooth(_smooth(held))
    edges = np.concatenate((gain[:1], np.minimum(gain[:-1], gain[1:]), gain[-1:]))
    rise = np.arange(_HOP, dtype=np.float32) / _HOP
    curve = edges[:-1, None] + (edges[1:] - edges[:-1])[:, None] * rise
    samples *= curve.astype(np.float32).ravel()[: len(samples)]


def _smooth(values: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Running mean over ``_REACH + 1`` values; shorter by ``_REACH``."""
    sums = np.concatenate(([0.0], np.cumsum(values)))
    return (sums[_REACH + 1 :] - sums[: -_REACH - 1]) / (_REACH + 1)
