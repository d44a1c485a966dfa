"""Tunings: the author's order, the count of strings, round trips."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.instrument.tuning import STANDARD, Tuning, parse_tuning
from lickwright.theory.pitch import Pitch

pitches = st.builds(Pitch, st.sampled_from("ABCDEFG"), st.integers(-1, 1), st.integers(0, 5))
tunings = st.builds(Tuning, st.lists(pitches, min_size=4, max_size=8).map(tuple))


def test_standard_tuning(table) -> None:
    """Standard tuning is the handbook's, string 1 the highest."""
    for row in table("open_strings"):
        pitch = STANDARD.open(int(row["string"]))
        assert (str(pitch), pitch.midi) == (row["open"], int(row["MIDI"]))
        assert pitch.hertz() == pytest.approx(float(row["Hz open"]), abs=5e-5)
    assert parse_tuning("E2 A2 D3 G3 B3 E4") == STANDARD


def test_reentrant_order() -> None:
    """String 1 is the last one written, even where it is not the highest."""
    tuning = parse_tuning("G4 C4 E4 A4")
    assert tuning is not None
    assert [str(tuning.open(string)) for string in (1, 2, 3, 4)] == ["A4", "E4", "C4", "G4"]


@given(tunings)
def test_print_and_read(tuning: Tuning) -> None:
    """What is printed reads back, with four to eight strings."""
    assert parse_tuning(tuning.text) == tuning
    assert tuning.count == len(tuning.text.split())


@pytest.mark.parametrize(
    "text", ["", "E2 A2 D3", "E A D G B E", "E2 " * 9, "e2 A2 D3 G3", "E2,A2,D3,G3", "E2 A2 D3 G3 H3 E4"]
)
def test_no_tuning(text: str) -> None:
    """Too few or too many strings, or a word that is no pitch, are no tuning."""
    assert parse_tuning(text) is None


@given(st.text())
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused."""
    assert parse_tuning(text) is None or isinstance(parse_tuning(text), Tuning)


@pytest.mark.parametrize("string", [0, -1, 7])
def test_no_such_string(string: int) -> None:
    """Strings count from 1; there is no string 0 and none from behind."""
    with pytest.raises(IndexError):
        STANDARD.open(string)
