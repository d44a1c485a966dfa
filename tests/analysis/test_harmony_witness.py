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


def test_a_free_tension_from_elsewhere_is_seen() -> None:
    """The planted fault: every quality with one foreign note among its free tensions fails the comparison."""
    for quality, kind in SCALES.items():
        columns, scale = _columns(quality), _scale(kind, "C")
        for foreign in {*range(12)} - scale:
            assert not columns["t"] | columns["f"] | {foreign} <= scale


@pytest.mark.parametrize(("quality", "name"), NAMED.items())
def test_tones_have_the_common_name(quality: str, name: str) -> None:
    """Stacked up, the notes the classifier takes for chord tones are what music21 calls them."""
    assert _common_name(_columns(quality)["t"]).startswith(name.removesuffix(" triad"))


@pytest.mark.parametrize(("quality", "name"), NAMED.items())
def test_a_tone_off_changes_the_common_name(quality: str, name: str) -> None:
    """The planted fault: with any tone above the root a half step lower music21 calls the chord otherwise."""
    tones = _columns(quality)["t"]
    for tone in tones - {0}:
        assert not _common_name(tones - {tone} | {tone - 1}).startswith(name.removesuffix(" triad"))


def _common_name(tones: set[int]) -> str:
    return str(m21_chord.Chord([60 + tone for tone in sorted(tones)]).commonName)


def _over_tonic(tonic: str, mode: str) -> list[RoleOf]:
    """The twelve notes, a long rest between, over a power chord on the tonic."""
    bars = "\n".join(f"{tonic}5 | . . . 3:{fret} . . . ." for fret in range(1, 13))
    return list(classify(read_piece(f"key: {tonic} {mode}\n\n{bars}")))


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("tonic", ["D", "F", "B"])
def test_a_note_is_chromatic_outside_the_mode(tonic: str, mode: str) -> None:
    """The scale of the key is music21's; a raised seventh belongs to minor as well."""
    assert _inside(tonic, mode) == _not_chromatic(tonic, mode)


@pytest.mark.parametrize("mode", MODES)
def test_another_mode_is_seen(mode: str) -> None:
    """The planted fault: what is chromatic in a mode is not what music21's other modes leave out."""
    inside = _inside("D", mode)
    assert [other for other in MODES if _not_chromatic("D", other) == inside] == [mode]


def _inside(tonic: str, mode: str) -> set[int]:
    return {r.pitch % 12 for r in _over_tonic(tonic, mode) if not r.chromatic}


def _not_chromatic(tonic: str, mode: str) -> set[int]:
    """The mode as music21 builds it, the fifth of the chord, and in minor the raised seventh."""
    root = m21_pitch.Pitch(tonic).pitchClass
    scale = _scale(MODES[mode], tonic) | {(root + 7) % 12}
    return scale | {(root + 11) % 12} if mode == "minor" else scale


MODES_AT_HOME = [mode for mode in MODES if mode != "locrian"]
"""The tonic triad of locrian is diminished: nobody's home."""


def _up_the_scale(mode: str, frets: dict[int, int] | None = None) -> list[RoleOf]:
    """The roles of music21's scale on A over its tonic chord; ``frets`` moves notes by their number."""
    minor = mode in ("minor", "dorian", "phrygian")
    pitches = sorted(_scale(MODES[mode], "A"), key=lambda n: (n - 9) % 12)
    off = frets or {}
    places = [2 + (n - 9) % 12 + off.get(number, 0) for number, n in enumerate(pitches)]
    slots = " ".join(f"3:{fret}" for fret in places)
    return list(classify(read_piece(f"key: A {mode}\n\n{'Am' if minor else 'A'} | {slots} -", "plain")))


@pytest.mark.parametrize("mode", MODES_AT_HOME)
def test_scale_notes_are_explained_in_every_mode(mode: str) -> None:
    """Up the scale of each mode over its tonic chord nothing is asked."""
    roles = _up_the_scale(mode)
    assert all(r.role.explained and r.tier != 1 and not r.chromatic for r in roles)
    assert roles[0].role is Role.CHORD_TONE


@pytest.mark.parametrize("mode", MODES_AT_HOME)
def test_a_note_off_the_scale_is_seen(mode: str) -> None:
    """The planted fault: any note of the scale but the first a fret off into a gap of it is chromatic."""
    scale = {(pitch - 9) % 12 for pitch in _scale(MODES[mode], "A")}
    for number, above in enumerate(sorted(scale)):
        for frets in (-1, 1):
            if number and (above + frets) % 12 not in scale | {
                3,
                11,
            }:  # a third of the chord; a raised seventh
                assert _up_the_scale(mode, {number: frets})[number].chromatic
