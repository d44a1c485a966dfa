"""A tune of music21's corpus set in the lick language, as an author would type it.

The tune is read from the installed corpus each time; nothing of it is kept in this
tree. The setting is an octave lower (the guitar sounds where it reads an octave
down), in first position where the range allows.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd
from typing import Any

from lickwright.instrument.fingering import fingering_path
from lickwright.instrument.guitar import Guitar

STEP = Fraction(1, 4)
"""One slot: a sixteenth, in quarters."""


@dataclass(frozen=True)
class Event:
    """A note or rest of one measure: onset and length in quarters, sounding MIDI number or None."""

    onset: Fraction
    length: Fraction
    midi: int | None
    tied: bool = False
    grace: tuple[int, ...] = ()
    name: str = ""


@dataclass(frozen=True)
class Measure:
    """A measure as music21 reads it."""

    number: int
    meter: str
    length: Fraction
    events: tuple[Event, ...]
    opens: bool
    closes: bool
    endings: str


@dataclass(frozen=True)
class Tune:
    """A tune as music21 reads it. ``played`` holds (onset, MIDI) with the repeats unfolded."""

    title: str
    key: str
    measures: tuple[Measure, ...]
    played: tuple[tuple[Fraction, int], ...]


def read_tune(name: str, down: int = 12) -> Tune:
    """Read a tune of the Ryan collection out of music21's corpus, ``down`` half steps lower."""
    from music21 import corpus

    part: Any = corpus.parse(f"ryansMammoth/{name}").parts[0]
    tune = read_part(part, name, down)
    return replace(tune, played=_played(part, tune, down))


def read_part(part: Any, name: str, down: int = 12) -> Tune:
    """Read a part of a score of music21's, ``down`` half steps lower; ``played`` is left empty."""
    from music21 import spanner

    brackets = {
        id(measure): str(bracket.number)
        for bracket in part.recurse().getElementsByClass(spanner.RepeatBracket)
        for measure in bracket.getSpannedElements()[:1]
    }
    measures = []
    meter = ""
    for index, measure in enumerate(part.getElementsByClass("Measure")):
        if measure.timeSignature is not None:
            meter = measure.timeSignature.ratioString
        measures.append(_measure(measure, index, meter, brackets.get(id(measure), ""), down))
    signature = part.recurse().getElementsByClass("KeySignature")[0]
    key = signature.asKey() if not hasattr(signature, "tonic") else signature
    name_of_key = f"{key.tonic.name.replace('-', 'b')} {key.mode}"
    return Tune(name, name_of_key, tuple(measures), ())


def _played(part: Any, tune: Tune, down: int) -> tuple[tuple[Fraction, int], ...]:
    from music21 import repeat

    played = []
    expanded = repeat.Expander(part).process() if any(m.closes for m in tune.measures) else part
    for note in expanded.flatten().notes:
        if note.duration.isGrace or (note.tie is not None and note.tie.type in ("stop", "continue")):
            continue
        played.append((Fraction(note.offset).limit_denominator(96), note.pitch.midi - down))
    return tuple(played)


def _measure(measure: Any, index: int, meter: str, endings: str, down: int) -> Measure:
    events: list[Event] = []
    grace: list[int] = []
    for note in measure.notesAndRests:
        if note.duration.isGrace:
            grace.append(note.pitch.midi - down)
            continue
        events.append(
            Event(
                Fraction(note.offset).limit_denominator(96),
                Fraction(note.quarterLength).limit_denominator(96),
                None if note.isRest else note.pitch.midi - down,
                tied=note.tie is not None and note.tie.type in ("stop", "continue"),
                grace=tuple(grace),
                name="" if note.isRest else note.pitch.name.replace("-", "b"),
            )
        )
        grace = []
    left, right = measure.leftBarline, measure.rightBarline
    return Measure(
        index,
        meter,
        sum((event.length for event in events), Fraction(0)),
        tuple(events),
        opens=getattr(left, "direction", None) == "start",
        closes=getattr(right, "direction", None) == "end",
        endings=endings,
    )


def set_tune(tune: Tune, guitar: Guitar, name: str = "tune") -> str:
    """Return the tune as a lick block's text, note names under each bar as second witness."""
    midis = [m for bar in tune.measures for e in bar.events for m in (*e.grace, e.midi) if m is not None]
    path = fingering_path(midis, guitar)
    assert path is not None, "the tune leaves the neck"
    places = iter(path)
    first = tune.measures[0]
    full = _length_of(first.meter)
    lines = [f"```lick {name}", f"key: {tune.key}", f"meter: {first.meter}", "step: 1/16"]
    pickup = first.length if first.length < full else None
    if pickup is not None:
        lines.append(f"pickup: {_written(pickup)}")
    lines += ["tempo: quarter = 96", "source: traditional: Ryan's Mammoth Collection, Boston 1883", ""]
    meter = first.meter
    for index, bar in enumerate(tune.measures):
        margin = []
        if bar.endings:
            margin.append(f"{bar.endings}.")
        wanted = bar.meter
        makes_up = (
            pickup is not None
            and bar.length == full - pickup
            and (bar.closes or index == len(tune.measures) - 1)
        )
        if bar.length != _length_of(bar.meter) and not (index == 0 and pickup) and not makes_up:
            wanted = _meter_of(bar.length)
        if wanted != meter:
            margin.append(wanted)
            meter = wanted
        if index == 0 or margin:
            margin.append("N.C.")
        opening = "|:" if bar.opens else "|"
        closing = " :|" if bar.closes else ""
        lines.append(f"{' '.join(margin)} {opening} {_slots(bar, places)}{closing}")
        names = [e.name for e in bar.events if e.midi is not None and not e.tied]
        if names:
            lines.append(f"  names | {' '.join(names)}")
    return "\n".join([*lines, "```", ""])


def _length_of(meter: str) -> Fraction:
    count, unit = meter.split("/")
    return Fraction(4 * int(count), int(unit))


def _written(length: Fraction) -> str:
    whole = length / 4
    return f"{whole.numerator}/{whole.denominator}"


def _meter_of(length: Fraction) -> str:
    for unit in (4, 8, 16):
        count = length * unit / 4
        if count.denominator == 1 and 1 <= count <= 16:
            return f"{count}/{unit}"
    raise AssertionError(f"no meter of {length} quarters")


def _slots(bar: Measure, places: Any) -> str:
    slots: list[str] = []
    run: list[Event] = []
    done = Fraction(0)
    for event in bar.events:
        run.append(event)
        done += event.length
        if (done / STEP).denominator == 1:
            slots.append(_run(run, places))
            run = []
    assert not run, "a measure that ends inside a sixteenth"
    return " ".join(slots)


def _run(run: list[Event], places: Any) -> str:
    """Events that together fill whole steps: plain slots, or one group."""
    total = sum((event.length for event in run), Fraction(0))
    unit = STEP
    for event in run:
        unit = Fraction(
            gcd(unit.numerator * event.length.denominator, event.length.numerator * unit.denominator),
            unit.denominator * event.length.denominator,
        )
    slots = []
    for event in run:
        shares = event.length / unit
        graces = [next(places) for _ in event.grace]
        if graces:
            slots.append(f"g({' '.join(f'{string}:{fret}' for string, fret in graces)})")
        if event.midi is None:
            begin = "."
        else:
            string, fret = next(places)
            begin = "-" if event.tied else f"{string}:{fret}"
        slots += [begin, *["-"] * (int(shares) - 1)]
    if unit == STEP:
        return " ".join(slots)
    return f"({' '.join(slots)})/{total / STEP}"
