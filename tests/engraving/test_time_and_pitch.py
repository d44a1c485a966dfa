"""Verovio's timemap and MIDI values against the music."""

import re
from fractions import Fraction

import pytest
from engraved_licks import MUSIC
from witness import Witness, tones

from lickwright.engraving.document import document
from lickwright.model.music import Music
from lickwright.model.strike import BendKind, Dead, Fretted, Tapped


def late_by(music: Music, witness: Witness) -> list[str]:
    """Ids that Verovio plays at another time than the music says.

    What Verovio plays late is let through: spread chords, and notes after grace notes at the start
    of a bar (from which it takes the time).
    """
    wrong = []
    for local, sound, tone, onset in tones(music):
        bent = any(t.bends and t.bends[0].kind is not BendKind.RELEASE for t in sound.tones)
        lenient = sound.spread or ((sound.grace or bent) and sound.onset == 0)
        for name in (f"s{local}", f"t{local}"):
            if name[0] == "t" and tone.tied:
                continue
            found = witness.onsets.get(name)
            if found is None or abs(found - onset) > (Fraction(1, 3) if lenient else Fraction(1, 900)):
                wrong.append(name)
    return wrong


@pytest.mark.parametrize("name", MUSIC)
def test_verovio_plays_every_note_when_the_music_says(name: str) -> None:
    """Staff and tab begin every tone at the onset of the music."""
    music = MUSIC[name]
    assert not late_by(music, Witness(document(music, "both").mei))


def test_a_shifted_note_is_caught() -> None:
    """A planted longer value shifts all that follows in its staff, and is noticed."""
    music = MUSIC["porch"]
    mei = re.sub(r'(xml:id="s1-1u1"[^>]*dur=")8"', r'\g<1>4"', document(music, "both").mei)
    assert late_by(music, Witness(mei))


def off_pitch(music: Music, witness: Witness) -> list[str]:
    """Ids to which Verovio gives another MIDI number than the music.

    The tab of what is no plain digit has a placeholder for a fret and is left out.
    """
    wrong = []
    for local, sound, tone, _ in tones(music):
        if isinstance(tone.head, Dead):
            continue
        moved = [pitch for pitch in tone.path[:2] if pitch.denominator == 1]
        printed = moved[-1] if tone.bends and tone.bends[0].kind is not BendKind.PRE else tone.path[0]
        if witness.pitch(f"s{local}") != printed:
            wrong.append(f"s{local}")
        plain = isinstance(tone.head, Fretted | Tapped) and "ghost" not in sound.signs and not tone.tied
        fret = music.guitar.midi(tone.string, tone.fret or 0)
        if plain and witness.pitch(f"t{local}") != fret:
            wrong.append(f"t{local}")
    return wrong


@pytest.mark.parametrize("name", MUSIC)
def test_verovio_reads_the_pitches_of_the_music(name: str) -> None:
    """The spelled note and the fret under its tuning both sound what the music says."""
    music = MUSIC[name]
    assert not off_pitch(music, Witness(document(music, "both").mei))


@pytest.mark.parametrize(
    ("old", "new"),
    [('pname="a" oct="3"', 'pname="b" oct="3"'), ('tab.fret="4"', 'tab.fret="5"'), ('accid.ges="s"', "")],
)
def test_a_wrong_pitch_is_caught(old: str, new: str) -> None:
    """A planted wrong letter, fret or missing sharp is noticed."""
    music = MUSIC["porch"]
    mei = document(music, "both").mei
    assert old in mei
    assert off_pitch(music, Witness(mei.replace(old, new)))
