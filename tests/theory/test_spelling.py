"""Spelling in context: the cases of the handbook, and what must always hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.chord import QUALITIES, Chord, parse_chord
from lickwright.theory.key import MODES, Key, parse_key
from lickwright.theory.pitch import Pitch, PitchClass
from lickwright.theory.spelling import spell

KEYS = [
    key
    for mode in MODES
    for letter in "ABCDEFG"
    for alter in (-1, 0, 1)
    if -7 <= (key := Key(PitchClass(letter, alter), mode)).signature <= 7
]


def spelled(key: str, chord: str | None, line: str) -> str:
    """A line of MIDI numbers in words, each note spelled among its neighbours."""
    tonality = parse_key(key)
    assert tonality is not None
    notes = [int(note) for note in line.split()]
    padded = [None, *notes, None]
    symbol = parse_chord(chord) if chord else None
    pitches = [
        spell(note, tonality, symbol, before, after)
        for before, note, after in zip(padded, notes, padded[2:], strict=False)
    ]
    return " ".join(str(pitch.name) for pitch in pitches)


@pytest.mark.parametrize(
    ("key", "chord", "line", "expected"),
    [
        ("F major", "C7", "72 70 69", "C Bb A"),  # the fourth degree is B flat
        ("F major", None, "70", "Bb"),
        ("D minor", "A7", "69 73 76", "A C# E"),  # C sharp in A7, in the key of D minor too
        ("D minor", None, "73 74", "C# D"),  # the leading tone without its chord
        ("A minor", None, "76 78 80 81", "E F# G# A"),  # melodic minor
        ("C major", None, "67 68 69", "G G# A"),  # up raised
        ("C major", None, "69 68 67", "A Ab G"),  # down lowered
        ("C major", None, "60 61 62 63 64", "C C# D D# E"),
        ("C major", None, "64 63 62 61 60", "E Eb D Db C"),
        ("C major", "C", "60 63 67", "C Eb G"),  # b3 left by a leap is blue
        ("C major", "C", "60 66 60", "C Gb C"),  # so is b5
        ("C major", "C", "60 70 67", "C Bb G"),  # and b7
        ("C major", "F7", "66 67", "F# G"),  # blues scale: raised going up to 5
        ("C major", "C7", "66 65", "Gb F"),  # lowered going down to 4
        ("C major", "C", "63 64", "D# E"),  # #2 rising to 3
        ("C major", "C", "66", "F#"),  # nearest on the line of fifths
        ("C major", "C", "68 70", "Ab Bb"),
        ("C major", None, "60 61 61 62", "C C# C# D"),  # a repeated note goes the way it came
        ("Eb major", "Ebdim7", "63 66 69 72", "Eb Gb Bbb Dbb"),  # the chord asks for doubles
        ("Eb major", "Fbdim7", "61", "Db"),  # not the chord's E triple flat: print has no sign for it
        ("B major", "F#aug", "66 70 74", "F# A# C##"),
        ("F# major", None, "67 68", "G G#"),  # no F double sharp without a chord
        ("Gb major", None, "69 68", "A Ab"),  # no B double flat either
        ("A major", "A7", "69 72 73 76", "A C C# E"),  # no B sharp in A: easier to read (common practice)
        ("E major", "E7", "64 67 71", "E G B"),  # the curl on b3
        ("C major", "N.C.", "68 69", "G# A"),
        ("C major", "D7", "60 61 66", "C C# F#"),  # hammered from C, and left by a leap: it has gone up
        ("G major", "D7", "60 61 66", "C C# F#"),  # where it would be the blue fifth of G, too
        ("C major", "G7", "62 61 55", "D Db G"),  # and down
        ("C major", "C", "67 68", "G G#"),  # or ends there
        ("C major", "F", "69 70 67", "A Bb G"),  # the blue seventh is no A sharp
        ("C major", "C", "62 63 60", "D Eb C"),  # nor the blue third a D sharp
        ("C major", "D7", "60 61 59", "C Db B"),  # left by a step: the nearest to the tonic
    ],
)
def test_cases_of_the_handbook(key: str, chord: str | None, line: str, expected: str) -> None:
    """Chord, key, direction, blue names, line of fifths: in that order."""
    assert spelled(key, chord, line) == expected


lines = st.tuples(st.integers(28, 96), st.none() | st.integers(28, 96), st.none() | st.integers(28, 96))


@given(lines, st.sampled_from(KEYS))
def test_sounds_as_given(line: tuple[int, int | None, int | None], key: Key) -> None:
    """The sound is kept; without a chord, only a key's own notes have double accidentals."""
    midi, previous, following = line
    pitch = spell(midi, key, None, previous, following)
    assert pitch.midi == midi
    assert abs(pitch.alter) <= 1 or pitch.name == key.spelling(midi)


@given(lines, st.sampled_from(KEYS), st.sampled_from(list(QUALITIES)))
def test_chord_and_key_come_first(line: tuple[int, int | None, int | None], key: Key, name: str) -> None:
    """A chord tone is spelled by its chord, any other note of the scale by the key."""
    midi, previous, following = line
    chord = Chord(key.tonic, QUALITIES[name])
    pitch = spell(midi, key, chord, previous, following)
    assert isinstance(pitch, Pitch)
    if midi % 12 in chord.semitones:
        assert pitch.name in chord.pitch_classes
    elif midi % 12 in key.semitones:
        assert pitch.name in key.scale


def test_at_most_double_accidentals_are_written() -> None:
    """Every quality on every root, every pitch: what is spelled has a sign in print."""
    roots = [PitchClass(letter, alter) for letter in "ABCDEFG" for alter in (-1, 0, 1)]
    key = parse_key("A major")
    assert key is not None
    spelled_at = {
        (str(root), quality): [
            spell(midi, key, parse_chord(f"{root}{quality}"), None, None) for midi in range(60, 72)
        ]
        for root in roots
        for quality in QUALITIES
    }
    assert all(abs(pitch.alter) <= 2 for pitches in spelled_at.values() for pitch in pitches)
    assert all([p.midi for p in pitches] == list(range(60, 72)) for pitches in spelled_at.values())
