"""What is performed of a printed tune is what music21 reads in it: onsets, length, pitches in hertz.

music21 unfolds the repeats and knows the frequency of a pitch; the tempo is ours.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import log2

import pytest
from corpus_setting import Tune, read_tune, set_tune

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music
from lickwright.model.timeline import resolve
from lickwright.performance.event import Performance, StringEvent
from lickwright.performance.perform import perform
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

TUNES = ("SwallowTailJig", "ClearTheTrackHornpipe", "RedLionHornpipe")
"""Compound time, cut time, pickups, repeats, endings, groups; none has grace notes."""
CENTS = 5
TEMPI = (96, 53)


def set_music(tune: Tune, guitar: Guitar) -> Music:
    """The tune on a guitar, through the builder."""
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(96), guitar, Provenance("own"))
    lesson, _ = read_lesson(Source("lessons/tune.md", set_tune(tune, guitar)), "tune")
    piece = resolve(Course("Tunes", "us", settings, (Unit("Tunes", (lesson,)),)))[0].piece("tune")
    assert piece is not None
    return piece.music


def hertz(performance: Performance, event: StringEvent) -> float:
    """What a string sounds at the end of an event's bends, in equal temperament at A = 440."""
    bent = event.curve[-1][1] / 100 if event.curve else 0
    return float(440 * 2 ** ((performance.opens[event.string - 1] + event.stop + bent - 69) / 12))


def disagreements(tune: Tune, performance: Performance, tempo: int) -> list[str]:
    """Where a performance is not what music21 reads."""
    from music21.pitch import Pitch

    faults = []
    quarter = 60 / tempo
    events = sorted(performance.events, key=lambda event: event.start)
    if len(events) != len(tune.played):
        faults.append(f"{len(events)} notes for {len(tune.played)}")
    for number, ((onset, midi), event) in enumerate(zip(tune.played, events, strict=False)):
        if abs(event.start - float(onset) * quarter) > 1e-6:
            faults.append(f"note {number} at {event.start:.4f} s")
        off = 1200 * log2(hertz(performance, event) / Pitch(midi).frequency)
        if abs(off) > CENTS:
            faults.append(f"note {number} {off:+.0f} cents")
    bar = tune.measures[-1]
    last = next(e for e in reversed(bar.events) if e.midi is not None and not e.tied)
    length = float(tune.played[-1][0] + bar.length - last.onset) * quarter
    if abs(performance.length - length) > 1e-6:
        faults.append(f"{performance.length:.2f} s long, not {length:.2f}")
    return faults


@pytest.fixture(scope="module", params=TUNES)
def tune(request: pytest.FixtureRequest) -> Tune:
    """A tune as music21 reads it."""
    return read_tune(f"{request.param}.abc")


@pytest.mark.parametrize("tempo", TEMPI)
def test_every_onset_and_pitch_is_the_printed_one(tune: Tune, tempo: int) -> None:
    """At the full tempo and at a slow one, with a capo as well: the pitches are those of the page."""
    for guitar in (Guitar(), Guitar(capo=2)):
        performance = perform(set_music(tune, guitar), Fraction(tempo))
        assert disagreements(tune, performance, tempo) == []


def test_planted_faults_are_heard(tune: Tune) -> None:
    """A capo forgotten, a note lost, a repeat not played, the slow tempo in place of the full one."""
    music = set_music(tune, Guitar())
    performed = perform(music, Fraction(96))
    capo = replace(performed, opens=tuple(pitch + 2 for pitch in performed.opens))
    assert "note 0 +200 cents" in disagreements(tune, capo, 96)
    lost = replace(performed, events=performed.events[:7] + performed.events[8:])
    assert disagreements(tune, lost, 96)
    unrepeated = replace(music, order=tuple(range(len(music.bars))))
    assert unrepeated.order != music.order
    assert disagreements(tune, perform(unrepeated, Fraction(96)), 96)
    short = perform(replace(music, order=music.order[:-1]), Fraction(96))
    assert disagreements(tune, short, 96)
    assert disagreements(tune, perform(music, Fraction(53)), 96)
