"""The limiter: catches the rare peak above the ceiling; level is fixed, never set by the file."""

import numpy as np
import numpy.typing as npt

from lickwright.sound.tables import CEILING

Samples = npt.NDArray[np.float32]

_HOP = 32  # samples for which one gain is worked out
_REACH = 32  # hops over which the gain falls before a peak and rises after it (23 ms)
_PART = 1 << 12  # hops worked on at a time: memory does not grow with the length
_BETWEEN = 0.94  # peaks between the samples may rise this much over them in so dark a sound (-0.5 dB)


def limit(samples: Samples) -> None:
    """Hold the samples under the ceiling, in place; a stretch that stays under it is left to the bit."""
    top = np.float32(CEILING * _BETWEEN)
    peaks = _find_peaks(samples)
    if not len(peaks) or peaks.max() <= top:
        return
    # one hop more at each end: a gain at every edge between hops
    need = np.pad(np.minimum(1, top / np.maximum(peaks, top)), 2 * _REACH + 1, mode="edge")
    rise = np.arange(_HOP, dtype=np.float32) / _HOP
    for first in range(0, len(peaks), _PART):
        last = min(first + _PART, len(peaks))
        near = need[first : last + 2 + 4 * _REACH]
        if near.min() == 1:
            continue
        # held over all of the smoothing's span, so that the gain is nowhere above what is needed
        held = np.lib.stride_tricks.sliding_window_view(near, 2 * _REACH + 1).min(axis=1)
        gain = np.minimum(_smooth(_smooth(held.astype(np.float64))), 1)
        edges = np.minimum(gain[:-1], gain[1:]).astype(np.float32)[:, None]
        part = samples[first * _HOP : last * _HOP]
        part *= (edges[:-1] + (edges[1:] - edges[:-1]) * rise).ravel()[: len(part)]


def _find_peaks(samples: Samples) -> Samples:
    """Greatest magnitude in each hop; the last one may be short."""
    peaks = np.zeros(-(-len(samples) // _HOP), np.float32)
    for first in range(0, len(peaks), _PART):
        part = np.abs(samples[first * _HOP : (first + _PART) * _HOP])
        part = np.pad(part, (0, -len(part) % _HOP)).reshape(-1, _HOP)
        peaks[first : first + len(part)] = part.max(axis=1)
    return peaks


def _smooth(values: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Running mean over ``_REACH + 1`` values; shorter by ``_REACH``."""
    sums = np.concatenate(([0.0], np.cumsum(values)))
    return (sums[_REACH + 1 :] - sums[: -_REACH - 1]) / (_REACH + 1)
