"""Intervals against music21 and the handbook's table of degrees."""

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.interval import Interval, degree_label, parse_degree
from lickwright.theory.pitch import PitchClass

QUALITY = {"P": "perfect", "M": "major", "m": "minor", "A": "augmented", "d": "diminished"}
NUMBER = ("unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave")
NUMBER += ("ninth", "tenth", "eleventh", "twelfth", "thirteenth")
SIZES = [f"{q}{n}" for n in (1, 4, 5, 8, 11, 12) for q in ("P", "A", "d")]
SIZES += [f"{q}{n}" for n in (2, 3, 6, 7, 9, 10, 13) for q in ("M", "m", "A", "d")]
SIZES.remove("d1")  # music21 turns it round
ROOTS = [PitchClass(letter, alter) for letter in "ABCDEFG" for alter in (-1, 0, 1)]


def disagreements(name: str, interval: Interval) -> list[str]:
    """Where an interval of ours differs from music21's of that name, over every root."""
    theirs = music21.interval.Interval(name)
    faults = []
    if theirs.semitones != interval.semitones:
        faults.append(f"{name}: {interval.semitones} half steps")
    for root in ROOTS:
        above = theirs.transposePitch(music21.pitch.Pitch(str(root).replace("b", "-") + "4")).name
        if above.replace("-", "b") != str(interval.above(root)):
            faults.append(f"{name} above {root}: {interval.above(root)}, not {above}")
    return faults


def named(name: str) -> Interval:
    """The interval of a short name, by its number and half steps in music21."""
    theirs = music21.interval.Interval(name)
    return Interval(theirs.generic.staffDistance, theirs.semitones)


@pytest.mark.parametrize("name", SIZES)
def test_above_as_music21(name: str) -> None:
    """Notes above every root are spelled as by music21, and the name is the same."""
    interval = named(name)
    assert disagreements(name, interval) == []
    assert interval.name == f"{QUALITY[name[0]]} {NUMBER[int(name[1:]) - 1]}"


def test_a_wrong_interval_is_caught() -> None:
    """The comparison sees an augmented second that passes for a minor third."""
    assert disagreements("m3", Interval(1, 3))
    assert disagreements("m3", Interval(2, 4))


@given(st.sampled_from(ROOTS), st.sampled_from(ROOTS))
def test_between_and_above(low: PitchClass, high: PitchClass) -> None:
    """The interval between two notes leads from the one to the other."""
    interval = Interval.between(low, high)
    assert interval.above(low) == high
    assert (high.semitone - low.semitone - interval.semitones) % 12 == 0
    assert 0 <= interval.steps <= 6


def test_degrees_of_the_handbook(table) -> None:
    """Each label of the handbook reads as its number of half steps."""
    checked = 0
    for row in table("intervals"):
        labels = (
            row["scale-degree label"].replace("/", " ").replace(",", " ").replace("(", " ").replace(")", " ")
        )
        for label in labels.split():
            interval = parse_degree(label)
            assert interval is not None
            assert interval.semitones % 12 == int(row["semitones"]) % 12, label
            checked += 1
    assert checked > 20


@pytest.mark.parametrize(
    ("text", "label"), [("9", "2"), ("11", "4"), ("13", "6"), ("♭9", "b2"), ("#11", "#4")]
)
def test_octave_equals(text: str, label: str) -> None:
    """A ninth is a second, an eleventh a fourth, a thirteenth a sixth."""
    interval = parse_degree(text)
    assert interval is not None
    assert degree_label(interval) == label == interval.label


@given(st.sampled_from(["bb", "b", "", "#", "##"]), st.integers(1, 7))
def test_print_and_read(sign: str, number: int) -> None:
    """A label within the octave reads back as itself."""
    interval = parse_degree(f"{sign}{number}")
    assert interval is not None
    assert interval.label == f"{sign}{number}"


@given(st.text())
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused."""
    interval = parse_degree(text)
    assert interval is None or 0 <= interval.steps <= 6


@pytest.mark.parametrize("text", ["", "0", "16", "b", "7b", "b٣", "root", "###4", "-7"])
def test_no_degree(text: str) -> None:
    """What is no degree is none."""
    assert parse_degree(text) is None


def test_compound_and_simple() -> None:
    """A ninth keeps its size and gives its second."""
    assert Interval(8, 14).name == "major ninth"
    assert Interval(8, 14).simple == Interval(1, 2)
    assert Interval(8, 13).label == "b2"
