"""A shift along the neck that is faster than the hand.

The index finger is followed along the neck by the way that asks the least haste of it; fingers in the `lh`
row say where it stands. A move above the limit, in millimetres a second, is found. Open strings between give
the hand time. A slide carries the hand along its string and may be faster.

Why it matters: a shift for which there is no time breaks the line, and is taken with a stiff arm. It is also
how a slipped digit looks: fret 17 where 7 was meant.

What to do: look at the fret and the string; find the note in the position the hand is in, put an open string
before the shift, or lower the tempo.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lickwright.checks.onsets import held_fret
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.findings import Label
from lickwright.instrument.fretboard import fret_position
from lickwright.instrument.hand import FINGERS
from lickwright.instrument.position import Standing, calmest, least_moved, standing, together
from lickwright.model.music import Sound, Tone
from lickwright.model.slots import SLIDES


@dataclass(frozen=True, slots=True)
class Grip:
    """What the fretting hand takes hold of at a moment.

    Attributes:
        start: Quarters. ``place``: from where on the neck it can be held.
        slid: Whether a slide leads to it. ``sound``, ``tone``: what is marked.
        bar: Number of the bar it is played in.
    """

    start: float
    place: Standing
    slid: bool
    sound: Sound
    tone: Tone
    bar: int


def run(subject: Subject) -> Iterator[Finding]:
    """Follow the hand; where the plain way is too fast at some point, look for a calmer one."""
    grips = _grips(subject)
    if not grips:
        return
    limits, guitar = subject.limits, subject.piece.music.guitar
    most, utmost = limits["shift-query"], limits["shift-error"]
    highest = max(grip.place.highest for grip in grips)
    places = [fret_position(fret, guitar.scale_length, guitar.capo) for fret in range(highest + 1)]

    def speed(number: int, start: int, to: int) -> float:
        seconds = (grips[number].start - grips[number - 1].start) * subject.quarter
        return abs(places[to] - places[start]) / seconds

    def excess(number: int, start: int, to: int) -> float:
        return max(0.0, speed(number, start, to) - (utmost if grips[number].slid else most))

    way = [grip.place for grip in grips]
    path = least_moved(way)
    if not any(excess(number, *move) for number, move in enumerate(pairwise(path), 1)):
        return
    path = calmest(way, excess)
    told: set[tuple[object, object]] = set()
    last = -1
    for number, move in enumerate(pairwise(path), 1):
        before, after = grips[number - 1], grips[number]
        key = (before.sound.address, after.sound.address)
        if not excess(number, *move) or key in told:
            continue
        told.add(key)
        if number > last + 1:  # to and fro is one fault
            yield _report(subject, before, after, speed(number, *move), utmost)
        last = number


def _report(subject: Subject, before: Grip, after: Grip, speed: float, utmost: float) -> Finding:
    severe = speed > utmost
    seconds = (after.start - before.start) * subject.quarter
    return subject.report(
        RULE,
        f"from fret {held_fret(before.tone)} to fret {held_fret(after.tone)} in {seconds:.2f} s at"
        f" {subject.piece.tempo.bpm}{_seam(subject, before, after)}: the hand would move at {speed:.0f} mm"
        f" a second, more than it {'can' if severe else 'easily does'}",
        after.tone.span,
        after.sound.address,
        severity=Severity.ERROR if severe else Severity.QUERY,
        labels=(Label(before.tone.span, "from here"),),
        help="Find it in the position the hand is in, or give the hand an open string's time",
    )


def _seam(subject: Subject, before: Grip, after: Grip) -> str:
    """Which licks of a chorus the shift lies between, if it does."""
    ways = [
        next((n for n, s in enumerate(subject.piece.sections) if s.first <= grip.bar <= s.last), None)
        for grip in (before, after)
    ]
    if None in ways or ways[0] == ways[1]:
        return ""
    first, second = (subject.piece.sections[way].lick for way in ways if way is not None)
    return f", at the seam of “{first}” and “{second}”"


def _grips(subject: Subject) -> Sequence[Grip]:
    """What is fretted at each moment; nothing at all where one position serves the whole piece."""
    lowest, highest = 1, subject.piece.music.guitar.frets
    grips: list[Grip] = []
    known: dict[int, tuple[Standing, bool, Tone] | None] = {}
    for onset in subject.onsets:
        sound = onset.sound
        if id(sound) not in known:
            known[id(sound)] = _hold(sound)
        hold = known[id(sound)]
        if hold is None:
            continue
        place, slid, tone = hold
        if grips and grips[-1].start == onset.start:
            other = grips.pop()
            place, slid = together((other.place, place)), other.slid or slid
        lowest, highest = max(lowest, place.lowest), min(highest, place.highest)
        grips.append(Grip(onset.start, place, slid, sound, tone, onset.bar.number))
    return () if lowest <= highest else grips


def _hold(sound: Sound) -> tuple[Standing, bool, Tone] | None:
    tones = [(fret, tone) for tone in sound.tones if (fret := held_fret(tone)) is not None]
    if not tones:
        return None
    places = [standing(fret, int(tone.finger) if tone.finger in FINGERS else None) for fret, tone in tones]
    slid = any(tone.link in SLIDES for _, tone in tones)
    return together(places) if len(places) > 1 else places[0], slid, tones[0][1]


RULE = Rule(
    id="hands/shift",
    title="A shift faster than the hand",
    severity=Severity.ERROR,
    source=Source(
        "own threshold",
        "Fret geometry is exact, the way of the hand a shortest path; the speeds in mm a second are our own",
    ),
    good=(
        Example("step: 1/16\n\nA | 1:5 1:2 1:0 1:12 - 1:9 1:12 - 1:5 - - - - - - -"),
        Example("step: 1/16\n\nA | 3:2 s 3:14 3:14 - 2:14 - - - 3:14 - - - - - - -"),
        Example("A | 3:2 - 2:2 - 3:14 - 2:14 -"),
    ),
    bad=(
        Example(
            "step: 1/16\ntempo: 110\n\nA | 1:2 1:17 1:2 1:17 1:14 - - - 1:17 - - - - - - -",
            marks=("1:17",),
        ),
        Example(
            "```progression home\nkey: A major\ntempo: 170\n\nA | A\n```\n\n"
            "```lick low\nover: home bar 1\n\n| 5:0 - 5:4 - 4:2 - 3:2 3:2\n```\n\n"
            "```lick high\nover: home bar 1\n\n| 1:17 - 1:14 - 2:17 - - -\n```\n\n"
            "```chorus both\nover: home\nlicks: low high\n```",
            marks=("1:17",),
        ),
    ),
    run=run,
)
