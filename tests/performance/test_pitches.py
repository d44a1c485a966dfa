"""What is performed, in hertz, against the handbook's table of frets; bars against the clock."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import log2
from pathlib import Path

import pytest
from rehearsal import play, write

from lickwright.instrument.guitar import Guitar
from lickwright.model.bar import Margin
from lickwright.performance.event import Performance
from lickwright.performance.perform import perform

TABLE = Path(__file__).parents[1] / "instrument" / "tables" / "open_strings.txt"
CENTS = 5
FRETS = (5, 7, 12, 15, 22)


def read_table() -> dict[tuple[int, int], float]:
    """Hertz of a string at a fret."""
    rows = [line.split(" | ") for line in TABLE.read_text(encoding="utf-8").splitlines()[3:]]
    hertz = {(int(row[0]), 0): float(row[3]) for row in rows}
    for row in rows:
        for fret, cell in zip(FRETS, row[4:], strict=True):
            hertz[int(row[0]), fret] = float(cell.split()[2])
    return hertz


HERTZ = read_table()


def ends_at(performance: Performance) -> list[float]:
    """The pitch at which each event ends, in hertz: stop, bend and partial counted in."""
    found = []
    for event in performance.events:
        midi = performance.opens[event.string - 1] + event.arrival
        midi += event.curve[-1][1] / 100 if event.curve else 0
        found.append(float(440 * 2 ** ((midi - 69) / 12)) * (event.harmonic or 1))
    return found


def off(performance: Performance, wanted: list[float]) -> list[int]:
    """Which notes are further than five cents from what is wanted."""
    heard = ends_at(performance)
    assert len(heard) == len(wanted)
    cents = [1200 * log2(ours / theirs) for ours, theirs in zip(heard, wanted, strict=True)]
    return [number for number, each in enumerate(cents) if abs(each) > CENTS]


@pytest.mark.parametrize("string", range(1, 7))
def test_every_string_sounds_as_the_table_has_it(string: int) -> None:
    """Open, at five frets, and bent to three of them."""
    bar = f"{string}:0 {string}:5 {string}:7 {string}:12 {string}:15 {string}:22 {string}:5b7 {string}:12b15"
    wanted = [HERTZ[string, fret] for fret in (0, *FRETS, 7, 15)]
    assert off(play(bar), wanted) == []


def test_bent_early_late_and_let_down() -> None:
    """Pre-bend, release, late bend and late release end on the fret they name; a slide where it arrives."""
    played = play("2:5pb7 2:5b7r5 2:5 2:b7 2:r5 - 3:5 s 3:7", "1:5 h 1:7 p 1:5 - - - - -")
    wanted = [7, 5, 5, 7, 5]
    pitches = [HERTZ[2, fret] for fret in wanted] + [HERTZ[3, 7], HERTZ[3, 7]]
    assert off(played, [*pitches, HERTZ[1, 5], HERTZ[1, 7], HERTZ[1, 5]]) == []


def test_harmonics_are_partials_of_their_string() -> None:
    """Over 12 the octave, over 5 two octaves: the table's open string times two and four."""
    played = play("6:<12> 5:<12> 4:<5> 3:5<17> - - - -")
    assert off(played, [2 * HERTZ[6, 0], 2 * HERTZ[5, 0], 4 * HERTZ[4, 0], 2 * HERTZ[3, 5]]) == []


def test_a_capo_raises_all_and_its_loss_is_heard() -> None:
    """Above a capo at 5 the open string sounds the table's fifth fret; without it every note is off."""
    capo = play("6:0 5:2 4:7 - - - - -", guitar=Guitar(capo=5))
    wanted = [HERTZ[6, 5], HERTZ[5, 7], HERTZ[4, 12]]
    assert off(capo, wanted) == []
    lost = replace(capo, events=tuple(replace(event, stop=event.stop - 5) for event in capo.events))
    assert off(lost, wanted) == [0, 1, 2]


def test_the_length_is_the_bars_by_the_clock() -> None:
    """So many quarters, each 60 over the tempo; a repeat whose last bar is short goes back to the pickup."""
    bars = ("1:0", *["2:0 - - - - - - -"] * 2, "2:0 - 2:2 - - - -")
    margins = [Margin(), Margin(opens=True), Margin(), Margin(closes=True)]
    music = write(*bars, margins=margins, pickup=Fraction(1, 2))
    for tempo in (120, 66, 53):
        performance = perform(music, Fraction(tempo))
        quarters = 2 * (0.5 + 4 + 4 + 3.5)
        assert performance.length == pytest.approx(quarters * 60 / tempo, abs=1e-9)
        assert len(performance.events) == 2 * (1 + 4)
        assert ends_at(performance) == pytest.approx(ends_at(perform(music, Fraction(200))))
