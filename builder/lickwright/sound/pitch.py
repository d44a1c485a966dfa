"""Where a string's stop and pitch are at each moment: frets, slides, bends, vibrato."""

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from lickwright.performance.event import Glide, StringEvent

Floats = npt.NDArray[np.float64]

_TOUCH = 0.004  # seconds a finger takes to set on the string or to leave it
_SHARP = 3.0  # cents by which a full stroke starts sharp: the wide swing stretches the string
_SINK = 0.05  # seconds in which that dies away
_GATHER = 0.25  # seconds in which a vibrato comes to its depth


def track_stop(events: Sequence[StringEvent], times: Floats) -> Floats:
    """Semitones of the stop above the open string, slides included, bends not.

    Args:
        events: One life of a string: events that follow each other without a gap.
        times: Seconds of the performance, rising.

    Returns:
        Semitones, shape of ``times``.
    """
    return _follow(events, times, _stop, 0.0)


def track_pitch(events: Sequence[StringEvent], times: Floats) -> Floats:
    """Cents above the open string with all that moves them; arguments as in :func:`track_stop`."""

    def cents(event: StringEvent, since: Floats) -> Floats:
        return 100 * _stop(event, since) + _bend(event, since) + _swing(event, since)

    track = _follow(events, times, cents, _TOUCH)
    for event in events:
        if not event.attack.legato:
            since = times - event.start
            track += np.where(
                since >= 0, _SHARP * event.velocity**2 * np.exp(-np.maximum(since, 0) / _SINK), 0
            )
    return track


def ease(share: Floats) -> Floats:
    """Smooth step: 0 up to 0, 1 from 1 on, level at both ends."""
    share = np.clip(share, 0, 1)
    return share * share * (3 - 2 * share)


def _follow(
    events: Sequence[StringEvent],
    times: Floats,
    measure: Callable[[StringEvent, Floats], Floats],
    touch: float,
) -> Floats:
    """Join ``measure`` of each event; where one takes over, the step is rounded over ``touch`` seconds."""
    track = np.empty_like(times)
    firsts = np.searchsorted(times, [event.start - touch / 2 for event in events])
    firsts[0] = 0
    lasts = [*firsts[1:], len(times)]
    for index, (event, first, last) in enumerate(zip(events, firsts, lasts, strict=True)):
        since = times[first:last] - event.start
        track[first:last] = measure(event, since)
        if index and touch:
            before = measure(events[index - 1], np.array([event.start - events[index - 1].start]))[0]
            taken = ease((since + touch / 2) / touch)
            track[first:last] = before + (track[first:last] - before) * taken
    return track


def _stop(event: StringEvent, since: Floats) -> Floats:
    stop = np.full_like(since, event.stop)
    for glide in event.glides:
        stop = np.where(since >= glide.at, _glide(glide, since - glide.at), stop)
    return stop


def _glide(glide: Glide, since: Floats) -> Floats:
    share = np.clip(since / glide.seconds, 0, 1)
    way = abs(glide.end - glide.begin)
    if glide.smooth:
        passed = way * ease(share)
    else:
        passed = way * (0.6 * ease(share) + 0.4 * share)
        fret = np.floor(passed)
        # each fret on the way is heard: half its time still, the change in the other half
        passed = np.where(share < 1, fret + ease((passed - fret - 0.25) / 0.5), way)
    return np.asarray(glide.begin + np.sign(glide.end - glide.begin) * passed)


def _bend(event: StringEvent, since: Floats) -> Floats:
    if not event.curve:
        return np.zeros_like(since)
    moments = np.array([moment for moment, _ in event.curve])
    heights = np.array([height for _, height in event.curve])
    if len(moments) == 1:
        return np.full_like(since, heights[0])
    leg = np.clip(np.searchsorted(moments, since, side="right") - 1, 0, len(moments) - 2)
    span = np.maximum(moments[leg + 1] - moments[leg], 1e-6)
    return np.asarray(heights[leg] + (heights[leg + 1] - heights[leg]) * ease((since - moments[leg]) / span))


def _swing(event: StringEvent, since: Floats) -> Floats:
    shake = event.vibrato
    if shake is None:
        return np.zeros_like(since)
    begun = np.maximum(since - shake.delay, 0)
    # a fretted string can only be stretched: the swing goes up from the pitch and back to it
    return np.asarray(
        shake.depth * ease(begun / _GATHER) * 0.5 * (1 - np.cos(2 * np.pi * shake.rate * begun))
    )
