"""Spelled pitches of tones."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1] / "engraving"))

from engraved_licks import MUSIC, PORCH, read

from lickwright.analysis.naming import spelled, spelled_graces
from lickwright.model.address import Address


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
