"""Scales against the handbook's table and music21's modes."""

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.pitch import PitchClass
from lickwright.theory.scale import SCALES, Scale, parse_scale

NAMES = {
    "Ionian (major)": "ionian",
    "Aeolian (natural minor)": "natural minor",
    "melodic minor (asc.)": "melodic minor",
    "(minor) blues": "blues",
    "dim. half-whole": "half-whole diminished",
    "Lydian dominant": "lydian dominant",
    "Mixolydian b9 b13": "mixolydian b9 b13",
}


def disagreements(rows: list[dict[str, str]]) -> list[str]:
    """Cells of the handbook's table that we spell otherwise."""
    faults = []
    for row in rows:
        kind = NAMES.get(row["scale"], row["scale"].lower())
        for tonic in ("A", "E", "Bb"):
            scale = parse_scale(f"{tonic} {kind}")
            ours = " ".join(map(str, scale.pitch_classes)) if scale else "nothing"
            steps = (
                {(scale.tonic.semitone + int(n)) % 12 for n in row["semitones"].split()} if scale else set()
            )
            if ours != row[f"on {tonic}"] or scale is None or scale.semitones != steps:
                faults.append(f"{tonic} {kind}: {ours}")
    return faults


def test_notes_of_the_handbook(table) -> None:
    """All scales of the handbook are spelled as printed on three tonics."""
    rows = table("scales")
    assert len(rows) == 19
    assert disagreements(rows) == []


def test_a_wrong_cell_is_caught(table) -> None:
    """The comparison sees a note of another spelling."""
    rows = table("scales")
    rows[11]["on A"] = rows[11]["on A"].replace("Eb", "D#")
    assert disagreements(rows) == ["A blues: A C D Eb E G"]


@pytest.mark.parametrize(
    ("kind", "theirs"),
    [
        ("harmonic minor", music21.scale.HarmonicMinorScale),
        ("melodic minor", music21.scale.MelodicMinorScale),
        ("dorian", music21.scale.DorianScale),
        ("locrian", music21.scale.LocrianScale),
    ],
)
def test_notes_as_music21(kind: str, theirs: type) -> None:
    """The seven-note scales are music21's, rising."""
    for tonic in ("C", "F#", "Eb"):
        pitches = theirs(tonic.replace("b", "-")).getPitches(direction=music21.scale.Direction.ASCENDING)
        scale = parse_scale(f"{tonic} {kind}")
        assert scale is not None
        assert [p.name.replace("-", "b") for p in pitches][:7] == list(map(str, scale.pitch_classes))


def test_relative_blues() -> None:
    """The minor blues scale is the major blues scale of the relative major."""
    for tonic, relative in (("A", "C"), ("E", "G"), ("G", "Bb"), ("F#", "A")):
        minor, major = parse_scale(f"{tonic} blues"), parse_scale(f"{relative} major blues")
        assert minor is not None
        assert major is not None
        assert minor.semitones == major.semitones


@given(
    st.builds(
        Scale,
        st.builds(PitchClass, st.sampled_from("ABCDEFG"), st.integers(-1, 1)),
        st.sampled_from(list(SCALES)),
    )
)
def test_print_and_read(scale: Scale) -> None:
    """The name reads back, and the degrees are as many as the notes."""
    assert parse_scale(scale.name) == scale
    assert len(scale.degrees()) == len(scale.pitch_classes) == len(scale.semitones)


@given(st.text())
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused."""
    assert parse_scale(text) is None or isinstance(parse_scale(text), Scale)


def test_printed_and_spoken() -> None:
    """Printed with accidentals, said in words."""
    scale = Scale(PitchClass("B", -1), "mixolydian b9 b13")
    assert scale.display == "B♭ mixolydian ♭9 ♭13"
    assert scale.spoken == "B flat mixolydian flat nine flat thirteen"
