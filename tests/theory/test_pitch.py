"""Spelled notes against music21 and the order of the line of fifths."""

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.pitch import Pitch, PitchClass

names = st.builds(PitchClass, st.sampled_from("ABCDEFG"), st.integers(-3, 3))
pitches = st.builds(Pitch, st.sampled_from("ABCDEFG"), st.integers(-2, 2), st.integers(0, 9))


def theirs(note: PitchClass | Pitch) -> music21.pitch.Pitch:
    """The same note in music21, whose flats are minus signs."""
    return music21.pitch.Pitch(str(note).replace("b", "-"))


@given(pitches)
def test_midi_as_music21(pitch: Pitch) -> None:
    """Every spelling sounds as music21 says, and in its frequency."""
    assert pitch.midi == theirs(pitch).ps
    assert pitch.hertz() == pytest.approx(theirs(pitch).frequency)


@given(names)
def test_pitch_class_as_music21(note: PitchClass) -> None:
    """The pitch class is music21's."""
    assert note.semitone == theirs(note).pitchClass


@given(names, pitches)
def test_print_and_read(note: PitchClass, pitch: Pitch) -> None:
    """What is printed reads back, in ASCII and with printed signs."""
    assert PitchClass.parse(str(note)) == note
    assert PitchClass.parse(note.display) == note
    assert Pitch.parse(str(pitch)) == pitch
    assert Pitch.parse(pitch.display) == pitch


def test_line_of_fifths() -> None:
    """The line runs F C G D A E B, flats before and sharps after it, seven apart."""
    line = [PitchClass(letter, alter) for alter in (-1, 0, 1) for letter in "FCGDAEB"]
    assert [note.fifths for note in line] == list(range(-8, 13))
    assert [note.semitone for note in line] == [7 * fifths % 12 for fifths in range(-8, 13)]


def test_printed_and_spoken() -> None:
    """Signs are printed, words are spoken."""
    assert PitchClass("C", 2).display == "C♯♯"
    assert PitchClass("C", 2).spoken == "C double sharp"
    assert PitchClass("B", -1).spoken == "B flat"
    assert PitchClass("A").spoken == "A"
    assert Pitch("F", 1, 4).spoken == "F sharp 4"


@pytest.mark.parametrize(
    ("text", "expected"),
    [("F♯", "F#"), ("Cx", "C##"), ("B♭♭", "Bbb"), ("F♮", "F"), ("G", "G"), ("C𝄪", "C##")],
)
def test_other_ways_of_writing(text: str, expected: str) -> None:
    """Printed signs, the engraver's x and a natural read."""
    assert str(PitchClass.parse(text)) == expected


@pytest.mark.parametrize("text", ["", "f#", "H", "F#4", "F b", "F#b", "Fsharp", "♯", "F####"])
def test_no_note(text: str) -> None:
    """What is no note is none."""
    assert PitchClass.parse(text) is None


@pytest.mark.parametrize("text", ["", "E", "e2", "E2 ", "E 2", "H3", "E٢", "E123"])
def test_no_pitch(text: str) -> None:
    """What is no pitch is none."""
    assert Pitch.parse(text) is None


@given(st.text())
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused."""
    for note in (PitchClass.parse(text), Pitch.parse(text)):
        assert note is None or note.letter in "ABCDEFG"


@given(st.integers(0, 127), names)
def test_name_at_a_pitch(midi: int, note: PitchClass) -> None:
    """A name is put into the octave where it sounds, or refused when it sounds otherwise."""
    if note.semitone == midi % 12:
        assert Pitch.at(midi, note).midi == midi
    else:
        with pytest.raises(ValueError, match="does not sound"):
            Pitch.at(midi, note)
