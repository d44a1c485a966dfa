"""Chords against music21 on fifteen roots, and against the handbook's chord table.

music21 misreads ``b`` for a flat, so roots go to it with minus signs; suffixes that it cannot read,
or reads as more than is meant (its 13 holds the 11th), are written for it as in ``FIGURES``. The
altered dominant, which it has no word for, is stacked with its intervals instead.
"""

import pickle
from itertools import pairwise

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.chord import (
    NO_CHORD,
    QUALITIES,
    Chord,
    NoChord,
    parse_chord,
    suggest_chord,
)
from lickwright.theory.interval import Interval
from lickwright.theory.pitch import PitchClass

ROOTS = ("C", "G", "D", "A", "E", "B", "F#", "C#", "F", "Bb", "Eb", "Ab", "Db", "Gb", "Cb")
FIFTHS = ("Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#")
FIGURES = {
    "6/9": "6add9",
    "m6/9": "m6add9",
    "13": "9add13",
    "maj9": "M9",
    "maj13": "M9add13",
    "m(maj7)": "mM7",
    "m(maj9)": "mM9",
    "9sus4": "7sus4add9",
    "13sus4": "7sus4add9add13",
    "7b9sus4": "7sus4b9",
    "13b9": "7b9add13",
    "13#11": "9#11add13",
    "maj9#11": "M9#11",
}
ALTERED = ("P1", "M3", "m7", "m9", "A9", "A11", "m13")

chords = st.builds(
    Chord,
    st.builds(PitchClass, st.sampled_from("ABCDEFG"), st.integers(-2, 2)),
    st.sampled_from(list(QUALITIES.values())),
    st.none() | st.builds(PitchClass, st.sampled_from("ABCDEFG"), st.integers(-2, 2)),
)


def witness(root: str, name: str) -> set[str]:
    """The notes of a chord by music21, flats as ``b``."""
    minus = root.replace("b", "-")
    if name == "7alt":
        base = music21.pitch.Pitch(minus + "3")
        notes = [base.transpose(interval).name for interval in ALTERED]
    else:
        suffix = FIGURES.get(name, "" if name == "major" else name)
        notes = [pitch.name for pitch in music21.harmony.ChordSymbol(minus + suffix).pitches]
    return {note.replace("-", "b") for note in notes}


def disagreements(chord: Chord, expected: set[str]) -> set[str]:
    """Notes that only one of the two has."""
    return {str(note) for note in chord.pitch_classes} ^ expected


@pytest.mark.parametrize("name", QUALITIES)
def test_notes_as_music21(name: str) -> None:
    """Every quality is spelled as by music21 on all fifteen roots of major keys."""
    faults = {root: disagreements(Chord.of(root, name), witness(root, name)) for root in ROOTS}
    assert {root: notes for root, notes in faults.items() if notes} == {}


def test_wrong_chords_are_caught() -> None:
    """The comparison sees a wrong quality, and a right sound in a wrong spelling."""
    assert disagreements(Chord.of("C", "m7"), witness("C", "m7b5")) == {"G", "Gb"}
    assert disagreements(Chord.of("Db", "7"), witness("C#", "7"))


def test_notes_of_the_handbook(table) -> None:
    """Every cell of the handbook's chord table is spelled as printed, in its order."""
    cells = 0
    for row in table("chords"):
        name = row.pop("quality")
        row.pop("semitones")
        for root, notes in row.items():
            chord = Chord.of(root, name)
            assert " ".join(map(str, chord.pitch_classes)) == notes, chord.symbol
            cells += 1
    assert cells >= 260


@pytest.mark.parametrize("name", QUALITIES)
def test_a_fifth_higher(name: str) -> None:
    """The notes of a chord, each a fifth higher, are those of the chord on the next root, spelled."""
    fifth = Interval(4, 7)
    for root, following in pairwise(FIFTHS):
        chord = Chord.of(root, name)
        assert tuple(map(fifth.above, chord.pitch_classes)) == Chord.of(following, name).pitch_classes


@pytest.mark.parametrize("name", QUALITIES)
def test_usual_spellings(name: str) -> None:
    """Every usual suffix reads, after every kind of root and before a bass; none is claimed twice."""
    for suffix in QUALITIES[name].suffixes:
        assert parse_chord(f"C{suffix}") == Chord.of("C", name)
        assert parse_chord(f"B♭{suffix}/F♯") == Chord.of("Bb", name, "F#")


@given(chords)
def test_print_and_read(chord: Chord) -> None:
    """The symbol and the printed form read back as the same chord."""
    assert parse_chord(chord.symbol) == chord
    assert parse_chord(chord.display) == chord


@given(st.text() | st.text(alphabet="ABCDEFGabcdefgmMj#b♯♭0123456789/()+-Δøosu. ", max_size=12))
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused, and what is suggested instead can be read."""
    assert parse_chord(text) is None or isinstance(parse_chord(text), Chord | NoChord)
    suggested = suggest_chord(text)
    assert suggested is None or parse_chord(suggested) is not None


@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("F#m7", "F#m7"),
        ("B♭△7", "Bbmaj7"),
        ("BbM7", "Bbmaj7"),
        ("C-7", "Cm7"),
        ("C°", "Cdim"),
        ("Co7", "Cdim7"),
        ("Cø", "Cm7b5"),
        ("C+", "Caug"),
        ("C+7", "C7#5"),
        ("CΔ", "Cmaj7"),
        ("CmMaj7", "Cm(maj7)"),
        ("C69", "C6/9"),
        ("C6/9/E", "C6/9/E"),
        ("Csus", "Csus4"),
        ("Ab5", "Ab5"),
        ("E7(#9)", "E7#9"),
        ("C7(b9,b13)", "C7b9b13"),
        ("G/B", "G/B"),
        ("N.C.", "N.C."),
    ],
)
def test_read(text: str, symbol: str) -> None:
    """Usual ways of writing come out in the house style."""
    chord = parse_chord(text)
    assert chord is not None
    assert chord.symbol == symbol


@pytest.mark.parametrize(
    "text", ["", "d7", "H7", "Gmay9", "Am7-5", "A 7", "A7 ", "C(", "C()", "C7(b9", "G/", "G/H", "G/b"]
)
def test_no_chord_symbol(text: str) -> None:
    """What is no chord symbol is none; nothing is guessed."""
    assert parse_chord(text) is None


@pytest.mark.parametrize(
    ("text", "suggested"),
    [
        ("Am7-5", "Am7b5"),
        ("Gmay9", "Gmaj9"),
        ("d7", "D7"),
        ("am", "Am"),
        ("c#m7", "C#m7"),
        ("C7+5", "C7#5"),
        ("C7-9", "C7b9"),
        ("C7M", "Cmaj7"),
        ("Aminor", "Am"),
        ("A minor 7", "Am7"),
        ("B flat 7", "Bb7"),
        ("A 7", "A7"),
        ("G/b", "G/B"),
        ("nc", "N.C."),
        ("Dsuss4", "Dsus4"),
        ("hello", None),
        ("", None),
    ],
)
def test_suggested(text: str, suggested: str | None) -> None:
    """A slip is answered with the nearest right symbol, nonsense with none."""
    assert suggest_chord(text) == suggested


def test_degrees() -> None:
    """A chord tone has the chord's label, another note the label of its spelling."""
    chord = Chord.of("F", "7")
    assert [chord.degree_of(note.semitone) for note in chord.pitch_classes] == ["1", "3", "5", "b7"]
    assert chord.degree_of(PitchClass("A")) == "3"
    assert chord.degree_of(PitchClass("B")) == "#4"
    assert chord.degree_of(PitchClass("C", -1)) == "b5"
    assert chord.degree_of(PitchClass("G", 2)) == "3"
    assert chord.degree_of(68) == "b3"
    assert Chord.of("C", "7#9").degree_of(3) == "#2"
    assert Chord.of("C", "dim7").degree_of(9) == "bb7"
    assert Chord.of("C", "m7").degree_of(6) == "b5"
    assert Chord.of("C", "major").degree_of(6) == "#4"


def test_slash_bass() -> None:
    """A bass outside the chord sounds with it, has its own degree, and is no second root."""
    chord = Chord.of("G", "major", "F#")
    assert [str(note) for note in chord.pitch_classes] == ["G", "B", "D", "F#"]
    assert 6 in chord.semitones
    assert chord.degree_of(6) == "7"
    assert len(Chord.of("G", "major", "B").pitch_classes) == 3


def test_sameness() -> None:
    """Spelling is evened out, quality and bass are not; a bass on the root is none."""
    assert Chord.of("Bb", "7").same_as(Chord.of("A#", "7"))
    assert Chord.of("C", "7", "C").same_as(Chord.of("C", "7"))
    assert Chord.of("G", "major", "F#").same_as(Chord.of("G", "major", "Gb"))
    assert not Chord.of("A", "7").same_as(Chord.of("A", "9"))
    assert not Chord.of("G", "major", "B").same_as(Chord.of("G", "major"))
    assert not Chord.of("A", "7").same_as(NO_CHORD)
    assert NO_CHORD.same_as(NO_CHORD)
    assert not NO_CHORD.same_as(Chord.of("A", "7"))


def test_kinds() -> None:
    """Dominants have the minor seventh and no minor third alone."""
    dominants = {name for name in QUALITIES if Chord.of("C", name).is_dominant}
    assert {"7", "9", "13", "7#9", "7sus4", "7alt"} <= dominants
    assert not dominants & {"major", "maj7", "m7", "m7b5", "dim7", "5"}
    assert Chord.of("C", "7#9").has_major_third
    assert not Chord.of("C", "m").has_major_third


def test_travels_between_processes() -> None:
    """A pickled chord comes back equal, with its notes and the one row of the table."""
    chord = Chord.of("Bb", "m7b5", "C")
    again = pickle.loads(pickle.dumps(chord))
    assert again == chord
    assert (again.pitch_classes, again.semitones) == (chord.pitch_classes, chord.semitones)
    assert again.quality is chord.quality
    assert pickle.loads(pickle.dumps(NO_CHORD)) == NO_CHORD


def test_printed_and_spoken() -> None:
    """Printed with accidentals, said in the trade's words."""
    chord = Chord.of("Bb", "m7b5", "F")
    assert chord.display == "B♭m7♭5/F"
    assert chord.spoken == "B flat minor seven flat five over F"
    assert Chord.of("D", "6/9").spoken == "D six-nine"
    assert (NO_CHORD.display, NO_CHORD.spoken, NO_CHORD.pitch_classes) == ("N.C.", "no chord", ())
    assert NO_CHORD.semitones == frozenset()
