"""Lengths in the words of a count."""

from __future__ import annotations

from fractions import Fraction

import pytest

from lickwright.checks.counting import count_units, place_in_bar, written_length
from lickwright.model.music import Line, MusicBar
from lickwright.theory.meter import Meter


def _bar(meter: Meter, offset: Fraction = Fraction(0)) -> MusicBar:
    return MusicBar(1, meter, True, meter.length, (), Line((), (), meter.length), offset=offset)


@pytest.mark.parametrize(
    ("filled", "full", "said"),
    [
        (Fraction(7, 2), Fraction(4), "7 of 8 eighths"),
        (Fraction(3), Fraction(4), "6 of 8 eighths"),
        (Fraction(15, 4), Fraction(4), "15 of 16 sixteenths"),
        (Fraction(9, 2), Fraction(3), "9 of 6 eighths"),
        (Fraction(11, 3), Fraction(4), "3.66667 of 4 quarters"),
    ],
)
def test_count_units(filled: Fraction, full: Fraction, said: str) -> None:
    """The longest unit that counts both exactly."""
    assert count_units(filled, full) == said


def test_written_length() -> None:
    """A length is a part of the whole note."""
    assert [written_length(Fraction(n, 2)) for n in (1, 2, 3, 4)] == ["1/8", "1/4", "3/8", "1/2"]


def test_whole_notes_are_written_as_quarters() -> None:
    """A bar too long by a bar is 4/4 long, not 1."""
    assert [written_length(Fraction(n)) for n in (4, 8)] == ["4/4", "8/4"]


@pytest.mark.parametrize(
    ("meter", "onset", "said"),
    [
        (Meter(4, 4), Fraction(2), "beat 3"),
        (Meter(4, 4), Fraction(7, 2), "the “and” of 4"),
        (Meter(2, 2), Fraction(1), "the “and” of 1"),
        (Meter(4, 4), Fraction(11, 4), "the “a” of 3"),
        (Meter(4, 4), Fraction(1, 3), "the end of beat 1"),
        (Meter(6, 8), Fraction(3, 2), "beat 2"),
        (Meter(6, 8), Fraction(2), "eighth 5"),
        (Meter(6, 8), Fraction(7, 4), "the end of beat 2"),
        (Meter(4, 4), Fraction(1, 4), "the “e” of 1"),
        (Meter(3, 4), Fraction(3), "the bar line"),
    ],
)
def test_place_in_bar(meter: Meter, onset: Fraction, said: str) -> None:
    """Beats are the meter's own."""
    assert place_in_bar(_bar(meter), onset) == said


def test_place_in_a_pickup() -> None:
    """A pickup of a quarter begins on the last beat."""
    assert place_in_bar(_bar(Meter(4, 4), Fraction(3)), Fraction(0)) == "beat 4"
