"""Meters against music21 and the weights of common practice."""

from fractions import Fraction

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.meter import Meter, parse_meter

meters = st.builds(Meter, st.integers(1, 16), st.sampled_from([2, 4, 8, 16]))


def disagreements(meter: Meter) -> list[str]:
    """Where length, beat or number of beats differ from music21's."""
    theirs = music21.meter.TimeSignature(str(meter))
    faults = []
    if Fraction(theirs.barDuration.quarterLength) != meter.length:
        faults.append("length")
    if theirs.beatCount != meter.beats or Fraction(theirs.beatDuration.quarterLength) != meter.beat:
        faults.append("beat")
    return faults


@pytest.mark.parametrize(
    "text", ["4/4", "3/4", "2/4", "2/2", "3/2", "6/8", "9/8", "12/8", "3/8", "9/16", "12/16", "5/4"]
)
def test_beat_as_music21(text: str) -> None:
    """Bar and beat of the usual meters are music21's."""
    meter = parse_meter(text)
    assert meter is not None
    assert disagreements(meter) == []


def test_a_wrong_beat_is_caught() -> None:
    """The comparison sees 6/8 counted in eighths."""

    class Eighths(Meter):
        beat = Fraction(1, 2)

    assert disagreements(Eighths(6, 8)) == ["beat"]


@pytest.mark.parametrize(
    ("text", "step", "weights"),
    [
        ("4/4", "1/2", "4 1 2 1 3 1 2 1"),
        ("2/2", "1/2", "4 1 2 1 3 1 2 1"),
        ("3/4", "1/2", "4 1 2 1 2 1"),
        ("2/4", "1/4", "4 0 1 0 2 0 1 0"),
        ("6/8", "1/2", "4 1 1 2 1 1"),
        ("12/8", "1/2", "4 1 1 2 1 1 3 1 1 2 1 1"),
        ("7/8", "1/2", "4 1 2 1 2 1 1"),
        ("4/4", "1/3", "4 0 0 2 0 0 3 0 0 2 0 0"),
    ],
)
def test_weights(text: str, step: str, weights: str) -> None:
    """Weights of common practice, the middle of 3/4 and 6/8 being no strong place."""
    meter = parse_meter(text)
    assert meter is not None
    places = [Fraction(step) * number for number in range(int(meter.length / Fraction(step)))]
    assert [meter.weight(place) for place in places] == [int(weight) for weight in weights.split()]


@given(meters)
def test_groups_and_beats_fill_the_bar(meter: Meter) -> None:
    """Beats and beam groups add up to the bar, whose line weighs most, in the next bar too."""
    assert sum(meter.beat_groups) == meter.length == meter.beat * meter.beats
    assert meter.weight(meter.length) == meter.weight(Fraction(0)) == 4
    assert meter.weight(Fraction(1, 64)) == 0


@given(meters)
def test_print_and_read(meter: Meter) -> None:
    """What is printed reads back."""
    assert parse_meter(str(meter)) == meter


@pytest.mark.parametrize("text", ["", "4", "0/4", "17/4", "4/3", "4/32", "04/4", " 4/4", "4 / 4", "٤/4", "C"])
def test_no_meter(text: str) -> None:
    """What is no meter is none."""
    assert parse_meter(text) is None


@given(st.text())
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused."""
    assert parse_meter(text) is None or isinstance(parse_meter(text), Meter)
