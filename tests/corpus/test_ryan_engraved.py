"""The tunes engraved and sounded: Verovio's timemap and an outside pitch tracker as witnesses."""

from __future__ import annotations

import re
from fractions import Fraction

import numpy as np
import parselmouth
import pytest
from corpus_setting import read_tune, set_tune
from corpus_verovio import VerovioReading
from test_ryan import TUNES, heard, read

from lickwright.engraving.document import document
from lickwright.instrument.guitar import Guitar
from lickwright.model.music import Music
from lickwright.model.timeline import play
from lickwright.performance.perform import perform
from lickwright.sound.encode import decode, encode_mp3
from lickwright.sound.render import render
from lickwright.sound.tables import RATE

SOUNDED = ("SwallowTailJig", "BanjoReel", "TelephoneReel")
"""A jig in minor, a reel with endings, a reel in a flat key with grace notes."""


def differing(music: Music, reading: VerovioReading) -> list[tuple[Fraction, int]]:
    """Sounds (onset in the order written, pitch) that Verovio reads at another place or pitch.

    Verovio takes the time of grace notes out of the note they lead to, up to a sixteenth;
    the lick language out of what precedes: such a note may come that much later.
    """
    notes, start = [], Fraction(0)
    for bar in music.bars:
        notes += [
            (start + sound.onset, int(sound.tones[0].path[0]), bool(sound.grace))
            for sound in bar.upper.sounds
        ]
        start += bar.length
    if len(notes) != len(reading.notes):
        return [(onset, pitch) for onset, pitch, _ in notes]
    wrong = []
    for (onset, pitch, graced), (at, read_pitch) in zip(notes, reading.notes, strict=True):
        late = at - onset
        if pitch != read_pitch or not 0 <= late <= (Fraction(1, 4) if graced else 0):
            wrong.append((onset, pitch))
    return wrong


@pytest.mark.parametrize("name", TUNES)
def test_verovio_reads_the_tune_we_engrave(name):
    """Verovio's timemap and MIDI values equal our timing and pitches, note for note."""
    piece, _ = read(set_tune(read_tune(f"{name}.abc"), Guitar()))
    assert differing(piece.music, VerovioReading(document(piece.music, "both").mei)) == []


def test_a_planted_shift_and_a_planted_pitch_are_seen():
    """A longer value in the MEI moves what follows; another pitch name is another MIDI number."""
    piece, _ = read(set_tune(read_tune("SwallowTailJig.abc"), Guitar()))
    mei = document(piece.music, "both").mei
    longer = re.sub(r'(xml:id="s1-1u1"[^>]*dur=")\d+"', r'\g<1>2"', mei)
    higher = re.sub(r'(xml:id="s1-2u1"[^>]*pname=")[a-g]"', r'\g<1>b"', mei)
    assert longer != mei
    assert higher != mei
    for planted in (longer, higher):
        assert differing(piece.music, VerovioReading(planted))


@pytest.mark.parametrize("name", SOUNDED)
def test_a_tune_sounds_what_music21_reads(name):
    """Praat hears music21's pitch in the middle of every long enough note, within half a semitone.

    Praat's autocorrelation reads stiff strings a few cents sharp; exact tuning is measured in
    tests/sound. Here the question is whether the right note sounds at the right time.
    """
    tune = read_tune(f"{name}.abc")
    piece, _ = read(set_tune(tune, Guitar()))
    performance = perform(piece.music, Fraction(96))
    samples = render(performance)
    assert len(samples) == round((performance.length + performance.tail) * RATE)
    assert len(decode(encode_mp3(samples))) == len(samples)
    assert misheard(samples, piece) == []


def misheard(samples: np.ndarray, piece, off: int = 0) -> list[tuple[float, int, float]]:
    """Notes (onset in seconds, MIDI number, number heard) that Praat hears otherwise."""
    sound = parselmouth.Sound(samples.astype(np.float64), RATE)
    pitch = sound.to_pitch_ac(time_step=0.01, pitch_floor=70.0, pitch_ceiling=900.0)
    wrong = []
    for played in play(piece.music)[:60]:
        start, end = (float(t) * 60 / 96 for t in (played.start, played.end))
        if end - start < 0.14:
            continue
        heard_hz = [pitch.get_value_at_time(t) for t in np.linspace(start + 0.06, end - 0.03, 5)]
        voiced = [hz for hz in heard_hz if not np.isnan(hz)]
        midi = int(played.sound.tones[0].path[0]) + off
        number = 69 + 12 * np.log2(np.median(voiced) / 440) if voiced else 0.0
        if abs(number - midi) > 0.5:
            wrong.append((round(start, 3), midi, round(float(number), 2)))
    return wrong


def test_a_planted_semitone_is_heard():
    """The same comparison against a tune written a half step higher finds nearly every note."""
    piece, _ = read(set_tune(read_tune("SwallowTailJig.abc"), Guitar()))
    samples = render(perform(piece.music, Fraction(96)))
    assert len(misheard(samples, piece, off=1)) > 20
    assert heard(piece)
