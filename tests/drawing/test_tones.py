"""The tones of chords and scales on the neck, held against music21's notes and its spelling."""

from __future__ import annotations

from dataclasses import replace

import pytest
from music21 import harmony, pitch
from music21 import scale as m21

from lickwright.drawing.degrees import signed, spoken
from lickwright.drawing.picture import Dot, Shape
from lickwright.drawing.tones import chord_tones, named_tones, scale_tones, tone_dots
from lickwright.drawing.window import Window, window_of
from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key
from lickwright.theory.pitch import PitchClass
from lickwright.theory.scale import parse_scale

GUITAR = Guitar()
OTHER = replace(GUITAR, tuning=parse_tuning("D2 A2 D3 F#3 A3 D4"), capo=3, hand="left")
TONICS = ("C", "G", "D", "A", "E", "B", "F#", "Db", "Ab", "Eb", "Bb", "F")
SUFFIXES = ("", "m", "7", "m7", "maj7", "dim", "aug", "sus4", "9", "m7b5", "6")
SCALES = {
    "major": m21.MajorScale,
    "minor": m21.MinorScale,
    "dorian": m21.DorianScale,
    "phrygian": m21.PhrygianScale,
    "lydian": m21.LydianScale,
    "mixolydian": m21.MixolydianScale,
    "locrian": m21.LocrianScale,
    "harmonic minor": m21.HarmonicMinorScale,
    "whole tone": m21.WholeToneScale,
}


def theirs(name: str) -> str:
    return name.replace("b", "-")


def on_their_neck(guitar: Guitar, window: Window, classes: set[int]) -> set[tuple[int, int]]:
    """Every place where one of some pitch classes sounds, by music21's pitches."""
    found = set()
    for string in window.strings:
        below = pitch.Pitch(theirs(str(guitar.tuning.open(string)))).midi + guitar.capo
        found |= {(string, fret) for fret in window.frets if (below + fret) % 12 in classes}
    return found


def places(dots: tuple[Dot, ...]) -> set[tuple[int, int]]:
    return {(dot.string, dot.fret) for dot in dots}


@pytest.mark.parametrize("guitar", [GUITAR, OTHER], ids=["standard", "open D, capo 3"])
@pytest.mark.parametrize("suffix", SUFFIXES)
def test_chord_tones_are_music21s(suffix: str, guitar: Guitar) -> None:
    """On twelve roots, all over the neck; none is missing and none too many."""
    window = window_of(guitar, (0, guitar.highest_fret))
    for root in TONICS:
        chord = parse_chord(root + suffix)
        dots = tone_dots(chord_tones(chord), guitar, window, "names")
        wanted = {
            p.pitchClass for p in harmony.ChordSymbol(theirs(root) + suffix.replace("maj", "M")).pitches
        }
        assert places(dots) == on_their_neck(guitar, window, wanted)
        slipped = (replace(dots[0], fret=dots[0].fret + 1), *dots[1:])
        assert places(slipped) != on_their_neck(guitar, window, wanted)  # a planted fret is seen
        rings = {dot.label for dot in dots if dot.shape is Shape.ROOT}
        assert rings == {chord.root.display}


@pytest.mark.parametrize("kind", SCALES)
def test_scales_are_music21s(kind: str) -> None:
    """On twelve tonics, with music21's own spelling where it is the key's."""
    window = window_of(GUITAR, (0, 12))
    for tonic in TONICS:
        made = SCALES[kind](theirs(tonic))
        wanted = {p.pitchClass: p.name for p in made.getPitches("C4", "C6")}
        dots = tone_dots(scale_tones(parse_scale(f"{tonic} {kind}")), GUITAR, window, "names")
        assert places(dots) == on_their_neck(GUITAR, window, set(wanted))
        if kind == "whole tone":
            continue
        for dot in dots:
            named = wanted[GUITAR.midi(dot.string, dot.fret) % 12]
            assert dot.label == named.replace("-", "♭").replace("##", "♯♯").replace("#", "♯")


def test_a_blues_scale_shows_its_blue_note() -> None:
    """The flat five of the minor one, the flat three of the major one; other scales have none."""
    window = window_of(GUITAR)

    def blue(name: str) -> set[str]:
        dots = tone_dots(scale_tones(parse_scale(name)), GUITAR, window, "names")
        return {dot.label for dot in dots if dot.shape is Shape.BLUE}

    assert blue("A blues") == {"E♭"}
    assert blue("C major blues") == {"E♭"}
    assert blue("A minor pentatonic") == blue("A minor") == set()


def test_labels() -> None:
    """Names, degrees, or the fingers of the position at the first fret shown."""
    window = Window(5, 8, 1, 6)
    minor = scale_tones(parse_scale("A minor pentatonic"))

    def low_string(labels: str) -> list[tuple[str, str]]:
        dots = tone_dots(minor, GUITAR, window, labels)
        return [(dot.label, dot.said) for dot in dots if dot.string == 6]

    assert low_string("names") == [("A", "A, the root"), ("C", "C, the flat third")]
    assert low_string("degrees") == [("1", "A, the root"), ("♭3", "C, the flat third")]
    assert low_string("fingers") == [("1", "A, the root, finger 1"), ("4", "C, the flat third, finger 4")]


def test_notes_by_name() -> None:
    """They have degrees only where a key is given, and each is shown once."""
    names = [PitchClass.parse(word) for word in ("A", "C#", "E", "A")]
    plain = named_tones(names, None)
    assert plain.title == "A, C♯ and E"
    assert [tone.degree for tone in plain.notes] == ["", "", ""]
    keyed = named_tones(names, parse_key("D major"))
    assert keyed.title == "A, C♯ and E as degrees of D major"
    assert [tone.degree for tone in keyed.notes] == ["5", "7", "2"]
    assert {dot.said for dot in tone_dots(plain, GUITAR, Window(0, 0, 1, 6), "names")} == {"E", "A"}


def test_every_degree_is_said() -> None:
    """Those of all scales, as written and in words."""
    assert (signed("bb7"), spoken("bb7")) == ("♭♭7", "the double flat seventh")
    assert (signed("#4"), spoken("#4")) == ("♯4", "the sharp fourth")
    assert [spoken(str(k)) for k in (1, 2, 3, 5)] == ["the root", "the second", "the third", "the fifth"]
