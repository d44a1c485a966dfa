"""What Verovio reads out of an MEI document: onsets and pitches of the staff's notes."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import Any

from lickwright.engraving.renderer import OPTIONS, toolkit

_BEGINS = re.compile(r"s\d+-\d+[ul]\d+")
"""Ids of staff notes that begin a sound: no grace notes, no tied pieces (``engraving.ids``)."""


class VerovioReading:
    """Verovio's own reading, repeats not unfolded.

    Attributes:
        notes: (onset in quarters, MIDI number) of every note of the staff that begins a
            sound, grace notes and tied continuations left out, by onset.
    """

    def __init__(self, mei: str) -> None:
        kit = toolkit(mei, "wide")
        kit.setOptions({**OPTIONS, "expandNever": True})
        kit.loadData(mei)
        notes = []
        for entry in _value(kit.renderToTimemap({"includeMeasures": False})):
            for name in entry.get("on", ()):
                if _BEGINS.fullmatch(name):
                    pitch = int(_value(kit.getMIDIValuesForElement(name))["pitch"])
                    notes.append((Fraction(entry["qstamp"]).limit_denominator(960), pitch))
        self.notes = sorted(notes)


def _value(answer: Any) -> Any:
    return json.loads(answer) if isinstance(answer, str) else answer
