"""What each string plays, as MIDI sees it: notes, each with the wheel's way through it.

A bend or release of its own goes on with the note that sounds; a hammered, pulled or slid-to note is one of
its own. A note's number is what is written, so a slide into it begins with the wheel off the middle.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from lickwright.instrument.harmonics import SEMITONES
from lickwright.performance.event import Attack, Glide, Performance, StringEvent

STEP = 0.01
"""Seconds between two places of a moving wheel."""


@dataclass(frozen=True, slots=True)
class Note:
    """One note of a string.

    Attributes:
        start, end: Seconds.
        pitch: MIDI number.
        velocity: 0..1.
        bends: Seconds and half steps from ``pitch``, in order, wherever the wheel moves.
        swell: Seconds in which the volume is turned up from nothing.
        lower: Whether it belongs to the lower voice.
    """

    string: int
    start: float
    end: float
    pitch: int
    velocity: float
    bends: tuple[tuple[float, float], ...]
    swell: float
    lower: bool


def notes(performance: Performance) -> tuple[Note, ...]:
    """Return the notes of all strings, in order of start."""
    by_string: dict[int, list[list[StringEvent]]] = {}
    for event in performance.events:
        runs = by_string.setdefault(event.string, [])
        if event.attack is Attack.BEND and runs:
            runs[-1].append(event)
        else:
            runs.append([event])
    made = (_note(run, performance) for runs in by_string.values() for run in runs)
    return tuple(sorted(made, key=lambda note: (note.start, note.string)))


def _note(run: list[StringEvent], performance: Performance) -> Note:
    first = run[0]
    ground = performance.opens[first.string - 1] + _partial(first)
    slid = bool(first.glides) and first.glides[0].at == 0
    stop = first.glides[0].end if slid else first.stop
    pitch = min(max(round(ground + stop), 0), 127)
    unpitched = first.attack in {Attack.DEAD, Attack.SCRAPE}
    return Note(
        string=first.string,
        start=first.start,
        end=run[-1].end,
        pitch=pitch,
        velocity=first.velocity * (0.5 if unpitched else 0.8 if first.attack.legato else 1.0),
        bends=tuple(_thin((at, ground + height - pitch) for at, height in _heights(run))),
        swell=first.swell,
        lower=first.source.startswith("low"),
    )


def _partial(event: StringEvent) -> int:
    """Half steps of a harmonic above the string."""
    return SEMITONES.get(event.harmonic, 0) if event.harmonic else 0


def _heights(run: Iterable[StringEvent]) -> Iterator[tuple[float, float]]:
    """Yield half steps above the open string, at the start of each event and wherever it may move."""
    for event in run:
        moving = event.curve or event.glides or event.vibrato
        yield event.start, height(event, 0.0)
        if not moving:
            continue
        count = int((event.end - event.start) / STEP)
        yield from ((event.start + k * STEP, height(event, k * STEP)) for k in range(1, count + 1))


def height(event: StringEvent, at: float) -> float:
    """Return half steps above the open string, ``at`` seconds into an event."""
    bent = _curve(event.curve, at)
    shake = 0.0
    if event.vibrato and at > event.vibrato.delay:
        phase = (at - event.vibrato.delay) * event.vibrato.rate % 1
        shake = event.vibrato.depth * _ease(2 * min(phase, 1 - phase))
    return _stop(event, at) + (bent + shake) / 100


def _stop(event: StringEvent, at: float) -> float:
    """Where the finger is: a slide sounds each fret on its way, but for one that leads away."""
    stop = event.stop
    for glide in event.glides:
        if at >= glide.at:
            stop = _on_the_way(glide, at)
    return stop


def _on_the_way(glide: Glide, at: float) -> float:
    share = min((at - glide.at) / glide.seconds, 1.0)
    place = glide.begin + (glide.end - glide.begin) * share
    return place if glide.smooth or share == 1.0 else glide.begin + int(place - glide.begin)


def _curve(curve: tuple[tuple[float, float], ...], at: float) -> float:
    if not curve:
        return 0.0
    before = curve[0]
    for point in curve:
        if at < point[0]:
            share = (at - before[0]) / (point[0] - before[0]) if point[0] > before[0] else 1.0
            return before[1] + (point[1] - before[1]) * _ease(share)
        before = point
    return before[1]


def _ease(share: float) -> float:
    return share * share * (3 - 2 * share)


def _thin(points: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Leave out what stays as it was."""
    last: float | None = None
    for at, height_ in points:
        if height_ != last:
            yield at, height_
        last = height_
