"""music21's reading of a MusicXML file, as soundings of strings."""

from __future__ import annotations

import warnings
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

import music21
from exchanged import Sounding


@dataclass(frozen=True)
class Note:
    """A note as read: where it is, how long, tied on or not, string and fret where they are said."""

    onset: Fraction
    length: Fraction
    pitch: int
    tie: str
    grace: bool
    string: int = 0
    fret: int = 0


def parse(text: bytes) -> Any:
    """The score."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return music21.converter.parseData(text.decode(), format="musicxml")


def notes(part: Any) -> list[Note]:
    """Every note of a staff; a chord's articulations stand in the order of its notes."""
    found = []
    for element in part.recurse().notes:
        if isinstance(element, music21.harmony.Harmony):
            continue
        several = element.notes if isinstance(element, music21.chord.Chord) else (element,)
        strings = [a.number for a in element.articulations if _is(a, "StringIndication")]
        frets = [a.number for a in element.articulations if _is(a, "FretIndication")]
        onset = Fraction(element.getOffsetInHierarchy(part))
        length = Fraction(element.duration.quarterLength)
        for k, note in enumerate(several):
            tie = note.tie.type if note.tie else ""
            place = {"string": strings[k], "fret": frets[k]} if strings else {}
            grace = bool(element.duration.isGrace)
            found.append(Note(onset, length, note.pitch.midi, tie, grace, **place))
    return found


def _is(articulation: Any, name: str) -> bool:
    return type(articulation).__name__ == name


def soundings(part: Any) -> list[Sounding]:
    """The notes of the tab, tied ones joined on their string."""
    found: list[Sounding] = []
    last: dict[int, int] = {}
    for note in sorted((n for n in notes(part) if not n.grace), key=lambda n: n.onset):
        if note.tie in ("stop", "continue"):
            before = found[last[note.string]]
            assert before.onset + before.length == note.onset
            assert before.pitch == note.pitch
            found[last[note.string]] = replace(before, length=before.length + note.length)
        else:
            last[note.string] = len(found)
            found.append(Sounding(note.onset, note.string, note.fret, note.pitch, note.length))
    return sorted(found)


def graces(part: Any) -> list[tuple[int, int]]:
    """String and fret of every grace note."""
    return sorted((note.string, note.fret) for note in notes(part) if note.grace)
