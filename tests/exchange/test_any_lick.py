"""Whatever can be written and resolved can be put into a file, and the file is valid."""

import sys
from pathlib import Path

import schemas
from exchanged import SETTINGS, file, voices
from hypothesis import HealthCheck, assume, given, settings
from lxml import etree

from lickwright.model.blocks import Lick
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.piece import resolve_lick

sys.path.append(str(Path(__file__).parents[1] / "reading"))
from written_music import licks  # the strategy that the round trip of the reader uses


@given(licks())
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_any_lick(lick: Lick) -> None:
    """Bars too long or too short too: the schemas accept the documents, the MIDI file has its chunks."""
    faults = Faults("test")
    piece = resolve_lick(lick, {}, SETTINGS, faults)
    assume(piece is not None and not any(fault.severity.value == "error" for fault in faults))
    assert piece is not None
    guitar = piece.music.guitar
    sounds = [sound for voice in voices(piece.music) for _, _, sound in voice]
    tones = [
        tone for sound in sounds for tones in (sound.tones, *(g.tones for g in sound.grace)) for tone in tones
    ]
    assume(all(guitar.has_string(tone.string) for tone in tones))
    assert schemas.musicxml().validate(etree.fromstring(file(piece, "musicxml")))
    assert schemas.mei().validate(etree.fromstring(file(piece, "mei")))
    midi = file(piece, "midi")
    at, chunks = 14, 0
    while at < len(midi):
        assert midi[at : at + 4] == b"MTrk"
        at += 8 + int.from_bytes(midi[at + 4 : at + 8], "big")
        chunks += 1
    assert at == len(midi)
    assert chunks == int.from_bytes(midi[10:12], "big") == 2 + piece.music.has_lower
