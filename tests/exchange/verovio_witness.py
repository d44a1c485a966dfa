"""Verovio's own reading of a file: when each note begins, what it sounds, what it has to say."""

from __future__ import annotations

import json
import os
import tempfile
from fractions import Fraction
from typing import Any

import verovio
from exchanged import starts

from lickwright.analysis.notation.ids import local_id
from lickwright.model.music import Music
from lickwright.model.strike import Late


class Witness:
    """A file, read by Verovio."""

    def __init__(self, text: bytes) -> None:
        kept = os.dup(2)
        with tempfile.TemporaryFile() as held:
            os.dup2(held.fileno(), 2)
            try:
                self._kit = verovio.toolkit()
                self._kit.setOptions({"expandNever": True, "xmlIdChecksum": True})
                self.loaded = self._kit.loadData(text.decode())
                self._kit.renderToSVG(1)
                stamps = _value(self._kit.renderToTimemap({"includeMeasures": True}))
            finally:
                os.dup2(kept, 2)
                os.close(kept)
                held.seek(0)
                self.said = held.read().decode(errors="replace")
        self.onsets: dict[str, Fraction] = {
            name: Fraction(entry["qstamp"]).limit_denominator(1920)
            for entry in stamps
            for name in entry.get("on", ())
        }

    def pitch(self, name: str) -> int:
        """MIDI number of a note."""
        return int(_value(self._kit.getMIDIValuesForElement(name))["pitch"])


def _value(answer: Any) -> Any:
    return json.loads(answer) if isinstance(answer, str) else answer


def late_by(music: Music, witness: Witness, staves: str = "st") -> list[str]:
    """Names of notes that begin at another time than the music says.

    What Verovio plays late is let through: spread chords, and notes after grace notes (from which it takes
    the time), and after a tuplet in a tuplet, of which it counts the inner ratio alone.
    """
    wrong = []
    begin = starts(music)
    for index, bar in enumerate(music.bars):
        for line in bar.lines:
            for sound in line.sounds:
                for k, tone in enumerate(sound.tones, 1):
                    if tone.tied or isinstance(tone.head, Late):
                        continue
                    room = Fraction(1, 2) if sound.grace else Fraction(1, 900)
                    room = Fraction(1) if sound.spread else room
                    for name in (f"{staff}{local_id(sound.address, k)}" for staff in staves):
                        found = witness.onsets.get(name)
                        if found is None or abs(found - begin[index] - sound.onset) > room:
                            wrong.append(name)
    return wrong
