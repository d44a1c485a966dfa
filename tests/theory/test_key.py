"""Keys and modes against music21 and the handbook's tables."""

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.theory.key import MODES, Key, parse_key, suggest_key
from lickwright.theory.pitch import PitchClass

TONICS = [PitchClass(letter, alter) for letter in "ABCDEFG" for alter in (-1, 0, 1)]
KEYS = [key for mode in MODES for tonic in TONICS if -7 <= (key := Key(tonic, mode)).signature <= 7]


def disagreements(key: Key) -> list[str]:
    """Where a key differs from music21's of that tonic and mode."""
    theirs = music21.key.Key(str(key.tonic).replace("b", "-"), key.mode)
    notes = [pitch.name.replace("-", "b") for pitch in theirs.pitches[:7]]
    faults = [] if notes == list(map(str, key.scale)) else [f"{key}: {notes}"]
    if theirs.sharps != key.signature:
        faults.append(f"{key}: {theirs.sharps} sharps")
    return faults


@pytest.mark.parametrize("mode", MODES)
def test_scale_and_signature_as_music21(mode: str) -> None:
    """All fifteen signatures of each mode have music21's notes."""
    keys = [key for key in KEYS if key.mode == mode]
    assert len(keys) == 15
    assert [fault for key in keys for fault in disagreements(key)] == []


def test_a_wrong_scale_is_caught() -> None:
    """The comparison sees one wrong note and a signature that does not follow."""
    key = Key(PitchClass("A"), "minor")
    object.__setattr__(key, "scale", Key(PitchClass("A"), "dorian").scale)
    assert disagreements(key)


def test_minor_keys_of_the_handbook(table) -> None:
    """Signature, natural scale and leading tone are the handbook's."""
    for row in table("minor_keys"):
        tonic, mode = row["relative minor keys"].split()
        key = parse_key(f"{tonic[0].upper()}{tonic[1:]} {mode}")
        assert key is not None
        assert key.signature == int(row["sharps"])
        assert " ".join(map(str, key.scale)) == row["scale (natural)"]
        leading = PitchClass.parse(row["leading tone"])
        assert leading is not None
        assert key.spelling(leading.semitone) == leading
        assert leading.semitone in key.working_semitones - key.semitones


def test_open_strings_of_the_handbook(table) -> None:
    """Each open string has the handbook's degree in all fifteen major keys."""
    for row in table("open_strings"):
        key = parse_key(f"{row['major key']} major")
        assert key is not None
        assert " ".join(map(str, key.scale)) == row["scale"]
        cells = list(row.values())[3:9]
        for midi, label in zip((40, 45, 50, 55, 59, 64), cells, strict=True):
            assert key.degree_of(midi) in label.split("/")
        inside = sum(midi % 12 in key.semitones for midi in (40, 45, 50, 55, 59, 64))
        assert inside == int(row["diatonic of 6"])


@given(st.sampled_from(KEYS))
def test_print_and_read(key: Key) -> None:
    """The name and the printed form read back."""
    assert parse_key(key.name) == key
    assert parse_key(key.display) == key


@given(st.text() | st.text(alphabet="ABGabg#b♯ majorindx", max_size=12))
def test_reading_never_raises(text: str) -> None:
    """Any text is read or refused, and what is suggested instead can be read."""
    assert parse_key(text) is None or isinstance(parse_key(text), Key)
    suggested = suggest_key(text)
    assert suggested is None or parse_key(suggested) is not None


@pytest.mark.parametrize(
    ("text", "suggested"),
    [
        ("am", "A minor"),
        ("A", "A major"),
        ("a major", "A major"),
        ("A Major", "A major"),
        ("A minro", "A minor"),
        ("F sharp minor", "F# minor"),
        ("B flat major", "Bb major"),
        ("Dmixolydian", "D mixolydian"),
        ("G# major", "Ab major"),
        ("Db minor", "C# minor"),
        ("hello", None),
        ("", None),
    ],
)
def test_suggested(text: str, suggested: str | None) -> None:
    """What does not read is answered with the nearest key, or with none."""
    assert parse_key(text) is None
    assert suggest_key(text) == suggested


def test_working_minor() -> None:
    """Only minor works with raised sixth and seventh."""
    minor, dorian = parse_key("A minor"), parse_key("A dorian")
    assert minor is not None
    assert dorian is not None
    assert minor.working_semitones == minor.semitones | {6, 8}
    assert dorian.working_semitones == dorian.semitones
    assert minor.is_minor_like
    assert dorian.is_minor_like
    assert not Key(PitchClass("A"), "mixolydian").is_minor_like


def test_degrees() -> None:
    """A number takes the key's label, a spelled note its own."""
    key = Key(PitchClass("A"), "minor")
    assert [key.degree_of(note.semitone) for note in key.scale] == ["1", "2", "b3", "4", "5", "b6", "b7"]
    assert key.degree_of(PitchClass("G", 1)) == "7"
    assert key.degree_of(PitchClass("E", -1)) == "b5"
    assert key.degree_of(3) == "#4"
    assert key.degree_of(1) == "3"
    assert (key.name, key.spoken) == ("A minor", "A minor")
    assert Key(PitchClass("B", -1), "major").display == "B♭ major"
    assert Key(PitchClass("B", -1), "major").spoken == "B flat major"
