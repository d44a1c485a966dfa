"""What Verovio itself says of a document: the outside witness of the tests."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from lickwright.analysis.notation.ids import local_id
from lickwright.engraving.renderer import OPTIONS, toolkit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.address import Address
    from lickwright.model.music import Music, Sound, Tone


class Witness:
    """Verovio's reading of an MEI document."""

    def __init__(self, mei: str) -> None:
        self.kit = toolkit(mei, "wide")
        self.kit.setOptions({**OPTIONS, "expandNever": True})
        self.kit.loadData(mei)
        stamps = _value(self.kit.renderToTimemap({"includeMeasures": True}))
        self.onsets: dict[str, Fraction] = {
            name: Fraction(entry["qstamp"]).limit_denominator(960)
            for entry in stamps
            for name in entry.get("on", ())
        }

    def pitch(self, name: str) -> int:
        """MIDI number of a note."""
        return int(_value(self.kit.getMIDIValuesForElement(name))["pitch"])


def _value(answer: Any) -> Any:
    return json.loads(answer) if isinstance(answer, str) else answer


def tones(music: Music) -> Iterator[tuple[str, Sound, Tone, Fraction]]:
    """Local id, sound, tone and quarters from the start of every tone, from the music alone."""
    start = Fraction(0)
    for bar in music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                for k, tone in enumerate(sound.tones, 1):
                    yield local_id(sound.address, k), sound, tone, start + sound.onset
        start += bar.length


def sounds(music: Music) -> Iterator[Sound]:
    """Every sound."""
    return (sound for bar in music.bars for line in bar.lines for sound in line.sounds)


def addresses(music: Music) -> list[Address]:
    """Every sound's address."""
    return [sound.address for sound in sounds(music)]
