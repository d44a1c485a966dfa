"""Chord tones, colours and scales against music21: the columns of every quality, the seven modes."""

from __future__ import annotations

import pytest
from music21 import chord as m21_chord
from music21 import pitch as m21_pitch
from music21 import scale as m21_scale
from scores import read_piece

from lickwright.analysis import Role, RoleOf, classify
from lickwright.analysis.changes import change
from lickwright.theory.chord import QUALITIES, Chord

# the scale that chord-scale teaching goes with a quality; what is free over the chord belongs to it
SCALES = {
    "major": m21_scale.MajorScale, "6": m21_scale.MajorScale, "maj7": m21_scale.MajorScale,
    "maj9": m21_scale.MajorScale, "maj7#11": m21_scale.LydianScale, "maj9#11": m21_scale.LydianScale,
    "7": m21_scale.MixolydianScale, "9": m21_scale.MixolydianScale, "13": m21_scale.MixolydianScale,
    "7sus4": m21_scale.MixolydianScale, "9sus4": m21_scale.MixolydianScale,
    "7b9sus4": m21_scale.PhrygianScale, "m7": m21_scale.DorianScale, "m9": m21_scale.DorianScale,
    "m11": m21_scale.DorianScale, "m13": m21_scale.DorianScale, "m6": m21_scale.DorianScale,
    "m7b5": m21_scale.LocrianScale,
}  # fmt: skip
NAMED = {
    "major": "major triad", "m": "minor triad", "dim": "diminished triad", "aug": "augmented triad",
    "7": "dominant seventh chord", "maj7": "major seventh chord", "m7": "minor seventh chord",
    "m7b5": "half-diminished seventh chord", "dim7": "diminished seventh chord",
}  # fmt: skip
MODES = {
    "major": m21_scale.MajorScale, "dorian": m21_scale.DorianScale, "phrygian": m21_scale.PhrygianScale,
    "lydian": m21_scale.LydianScale, "mixolydian": m21_scale.MixolydianScale,
    "minor": m21_scale.MinorScale, "locrian": m21_scale.LocrianScale,
}  # fmt: skip


def _columns(quality: str) -> dict[str, set[int]]:
    relation = change(0, Chord.of("C", quality)).relation
    return {letter: {n for n in range(12) if relation[n] == letter} for letter in "tfca."}


def _scale(kind: type[m21_scale.ConcreteScale], tonic: str) -> set[int]:
    return {pitch.pitchClass for pitch in kind(tonic).getPitches()}


@pytest.mark.parametrize("quality", QUALITIES)
def test_every_quality_has_its_columns(quality: str) -> None:
    """Each chord has colours, and what is free over it is no half step above any of its tones."""
    columns = _columns(quality)
    assert columns["f"] | columns["c"] | columns["a"]
    clash = {(tone + 1) % 12 for tone in columns["t"]}
    if quality != "5":  # a power chord is neither major nor minor, and carries both thirds and sixths
        assert not columns["f"] & clash


@pytest.mark.parametrize("quality", SCALES)
def test_what_is_free_belongs_to_the_scale_of_the_chord(quality: str) -> None:
    """Tones and free tensions lie in the scale that music21 builds; what rubs in it is not free."""
    columns, scale = _columns(quality), _scale(SCALES[quality], "C")
    assert columns["t"] | columns["f"] <= scale
    assert not columns["a"] & columns["t"]


def test_a_foreign_scale_is_seen() -> None:
    """The planted fault: over the wrong scale the same comparison fails."""
    assert not _columns("7")["t"] <= _scale(m21_scale.MajorScale, "C")


@pytest.mark.parametrize(("quality", "name"), NAMED.items())
def test_tones_have_the_common_name(quality: str, name: str) -> None:
    """Stacked up, the notes the classifier takes for chord tones are what music21 calls them."""
    tones = sorted(_columns(quality)["t"])
    assert m21_chord.Chord([60 + tone for tone in tones]).commonName.startswith(name.removesuffix(" triad"))


def _over_tonic(tonic: str, mode: str) -> list[RoleOf]:
    """The twelve notes, a long rest between, over a power chord on the tonic."""
    bars = "\n".join(f"{tonic}5 | . . . 3:{fret} . . . ." for fret in range(1, 13))
    return list(classify(read_piece(f"key: {tonic} {mode}\n\n{bars}")))


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("tonic", ["D", "F", "B"])
def test_a_note_is_chromatic_outside_the_mode(tonic: str, mode: str) -> None:
    """The scale of the key is music21's; a raised seventh belongs to minor as well."""
    scale = _scale(MODES[mode], tonic) | {(m21_pitch.Pitch(tonic).pitchClass + 7) % 12}  # a chord tone
    if mode == "minor":
        scale.add((m21_pitch.Pitch(tonic).pitchClass + 11) % 12)
    inside = {r.pitch % 12 for r in _over_tonic(tonic, mode) if not r.chromatic}
    assert inside == scale


def test_scale_notes_are_explained_in_every_mode() -> None:
    """Up the scale of each mode over its tonic chord nothing is asked."""
    for mode, kind in MODES.items():
        if mode == "locrian":  # its tonic triad is diminished: nobody's home
            continue
        minor = mode in ("minor", "dorian", "phrygian")
        pitches = sorted(_scale(kind, "A"), key=lambda n: (n - 9) % 12)
        frets = [(n - 7) % 12 for n in pitches]
        slots = " ".join(f"3:{fret if fret >= 2 else fret + 12}" for fret in frets)
        roles = classify(read_piece(f"key: A {mode}\n\n{'Am' if minor else 'A'} | {slots} -", "plain"))
        assert all(r.role.explained and r.tier != 1 and not r.chromatic for r in roles), mode
        assert roles[0].role is Role.CHORD_TONE
