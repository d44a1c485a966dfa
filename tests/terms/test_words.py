"""The trade's words: each table read in all its forms, and nothing read that is none of them."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from lickwright.terms import (
    bends,
    degrees,
    fingers,
    hedges,
    intervals,
    movements,
    notes,
    numbers,
    strings,
    strokes,
    techniques,
    units,
)
from lickwright.theory.pitch import PitchClass


@pytest.mark.parametrize("letter", "ABCDEFG")
@pytest.mark.parametrize("alter", range(-2, 3))
def test_a_note_is_read_in_every_way_it_is_written(letter: str, alter: int) -> None:
    """As said, as printed, as typed: the same note, and the pattern takes all of it."""
    name = PitchClass(letter, alter)
    for written in (name.spoken, name.spoken.replace(" ", "-"), name.display, str(name)):
        assert notes.read_note(written) == (letter, alter)
        found = re.match(notes.NOTE, written)
        assert found is not None
        assert found[0] == written


@pytest.mark.parametrize("text", ["H", "Bach", "A's", "A-part", "Cx7", "Dbs"])
def test_what_is_no_note(text: str) -> None:
    """A letter in a word is no note."""
    assert re.fullmatch(notes.NOTE, text) is None


def test_numbers_go_both_ways() -> None:
    """Words, digits and ordinals of one number read as that number."""
    for number in range(1, 25):
        forms = (numbers.CARDINALS[number], numbers.ORDINALS[number], str(number))
        assert {numbers.read_number(form) for form in forms} == {number}
    assert numbers.read_number("fin") is None


@pytest.mark.parametrize(
    ("text", "degree"),
    [
        ("root", ("chord", 1, 0)),
        ("flat seven", ("chord", 7, -1)),
        ("flat seventh", ("chord", 7, -1)),
        ("♭7", ("chord", 7, -1)),
        ("#11", ("chord", 11, 1)),
        ("blue third", ("chord", 3, -1)),
        ("diminished seventh", ("chord", 7, -2)),
        ("diminished fifth", ("chord", 5, -1)),
        ("major seventh", ("chord", 7, 0)),
        ("ninth", ("chord", 9, None)),
        ("leading tone", ("key", 7, 0)),
        ("eighth", None),
        ("great third", None),
    ],
)
def test_degrees(text: str, degree: tuple[str, int, int | None] | None) -> None:
    """A degree is its number and what is said of its size."""
    assert degrees.read_degree(text) == degree


def test_fingers_of_both_hands() -> None:
    """A name may be a sign of either row."""
    assert fingers.read_finger("index finger") == ("1", "i")
    assert fingers.read_finger("pinky") == ("4", "c")
    assert fingers.read_finger("thumb") == ("T", "p")
    assert fingers.read_finger("third finger") == ("3", None)
    assert fingers.read_finger("fifth finger") is None


def test_strokes_strings_bends_intervals_units() -> None:
    """One of each table, and one that is none."""
    assert strokes.read_stroke("down-strokes") == ("d", True)
    assert (strings.read_side("top"), strings.read_side("thickest"), strings.read_side("next")) == (
        1,
        -1,
        None,
    )
    assert bends.read_amount("step and a half") == Fraction(3)
    assert bends.read_amount("mile") is None
    assert intervals.read_interval("a minor third") == (3,)
    assert intervals.read_interval("boats") is None
    assert units.read_unit("hammers") == "hammer-on"
    assert units.read_unit("boats") is None


def test_movements_are_techniques() -> None:
    """What prose may claim goes by the names of the table of techniques, and kinds of bend beside them."""
    assert set(movements.MOVEMENTS.values()) - set(techniques.NAMES) == {"unison bend", "oblique bend"}
    for form, name in movements.MOVEMENTS.items():
        assert movements.name_movement(form) == name


@pytest.mark.parametrize("text", ["not", "don’t", "isn't", "rather than", "Instead of"])
def test_hedges(text: str) -> None:
    """Negations and comparisons are found, contracted ones too."""
    assert re.fullmatch(hedges.HEDGE, text, re.IGNORECASE)
