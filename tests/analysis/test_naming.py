"""Spelled pitches of tones."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parents[1] / "engraving"))

from engraved_licks import MUSIC, PORCH, read

from lickwright.analysis import classify
from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Piece
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key


def names(text: str) -> list[str]:
    """The first pitch of every tone of the upper voice, in order."""
    music = read(text)
    found = spelled(music)
    return [
        str(found[sound.address, k][0])
        for bar in music.bars
        for sound in bar.upper.sounds
        for k, tone in enumerate(sound.tones, 1)
        if tone.path
    ]


def test_every_pitch_sounds_what_the_music_says() -> None:
    """Spelling changes no pitch; a quarter tone keeps the pitch before it."""
    for music in MUSIC.values():
        found = spelled(music)
        for bar in music.bars:
            for line in bar.lines:
                for sound in line.sounds:
                    for k, tone in enumerate(sound.tones, 1):
                        pitches = found[sound.address, k]
                        assert len(pitches) == len(tone.path)
                        for pitch, midi in zip(pitches, tone.path, strict=True):
                            if midi.denominator == 1:
                                assert pitch.midi == midi
                            else:
                                assert pitch == pitches[0]


def test_the_contracts_own_lick_reads_as_its_author_names_it() -> None:
    """The ``names`` row of the language's first example."""
    assert [name[:-1] for name in names(PORCH)][:7] == ["A", "C#", "E", "F#", "A", "B", "C#"]


def test_a_chromatic_note_is_written_by_where_it_goes() -> None:
    """Up by a sharp, down by a flat, in the same key over the same chord."""
    up = names("key: C major\n\nC | 3:0 - 3:1 - 3:2 - 3:5 -\n")
    down = names("key: C major\n\nC | 3:2 - 3:1 - 3:0 - 3:5 -\n")
    assert up[:3] == ["G3", "G#3", "A3"]
    assert down[:3] == ["A3", "Ab3", "G3"]


def test_voices_do_not_lead_into_each_other() -> None:
    """The lower voice's notes are no neighbours of the upper one's."""
    music = read("key: C major\n\nC | 3:1 - - - 3:2 - - -\n   low | 5:3 - - - 5:2 - - -\n")
    found = spelled(music)
    assert str(found[Address(1, 1), 1][0]) == "G#3"
    assert str(found[Address(1, 1, lower=True), 1][0]) == "C3"


def test_a_grace_note_is_led_to_its_sound() -> None:
    """The grace note a half step below a chord tone is a sharp."""
    music = read("key: C major\n\nC | g(2:4) 2:5 - - - - - - -\n")
    assert str(spelled_graces(music)[Address(1, 1), 1, 1][0]) == "D#4"


def test_a_quarter_tone_curl_keeps_the_fretted_pitch() -> None:
    """``b15.5`` is printed as fret 15."""
    music = read("key: A major\n\nA | 2:15b15.5 - - - - - - -\n")
    assert [str(pitch) for pitch in spelled(music)[Address(1, 1), 1]] == ["D5", "D5"]


def test_a_single_note_goes_to_the_nearest_tone_of_a_chord() -> None:
    """A walk up into the bass of a chord is written with a sharp, whatever stands on top of it."""
    walk = names("key: E major\n\nE7 B7 | 5:0 - 5:1 - 5:2+4:1+3:2+2:0 - - -\n")
    assert walk[:2] == ["A2", "A#2"]


GUIDE_TABLE = {"blues": "1 b3 4 b5 5 b7", "major blues": "1 2 b3 3 5 6"}
"""As every guitarist spells them (common practice), and as the guide's page on keys prints them."""
TONICS = ("A", "E", "G", "C", "D", "Bb", "Eb", "F#")


def _scale(name: str) -> Piece:
    """A scale block from its lowest tonic up two octaves where the neck has them."""
    text = f"# One\n\n```scale one\nscale: {name}\n```\n"
    lesson, wrong = read_lesson(Source("lessons/one.md", text), "one")
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"))
    book, faults = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    assert [*wrong, *faults] == []
    return book.pieces[0]


def _degrees(piece: Piece) -> set[str]:
    """Every degree that a piece has: over its chord, and as the staff spells it above the tonic."""
    spelled_degrees = {piece.music.key.degree_of(each[0].name) for each in spelled(piece.music).values()}
    assert spelled_degrees == {role.degree for role in classify(piece)}
    return spelled_degrees


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("kind", GUIDE_TABLE)
def test_a_scale_block_is_spelled_by_its_table(tonic: str, kind: str) -> None:
    """Up as down: E flat in A blues, not D sharp on its way to E."""
    assert _degrees(_scale(f"{tonic} {kind}")) == {*GUIDE_TABLE[kind].split()}


def test_without_the_names_of_its_scale_it_is_not() -> None:
    """The planted fault: the key alone spells the flat fifth by where it goes."""
    piece = _scale("A blues")
    music = replace(piece.music, key=replace(piece.music.key, names=()))
    assert "#4" in _degrees(replace(piece, music=music))


def test_a_lick_is_spelled_by_where_it_goes() -> None:
    """In a melody the same note is raised on its way up and lowered on its way down."""
    line = names("key: A minor\n\nAm | 3:7 - 3:8 - 2:5 - 3:8 3:7\n")
    assert [name[:-1] for name in line] == ["D", "D#", "E", "Eb", "D"]
