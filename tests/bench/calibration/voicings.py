"""An open data set of guitar voicings, held against our table of chords.

The data: ``@tombatossals/chords-db`` 0.5.1 of the npm registry, MIT licence, copyright 2016 D. Rubert; it is
not kept in this tree. Each of its voicings is a name, frets and the frets' base; it gives the MIDI numbers
too, which our fretboard must agree with.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lickwright.instrument.guitar import Guitar
from lickwright.theory.chord import QUALITIES, Chord, parse_chord
from lickwright.theory.pitch import PitchClass

NAMES = {"major": "", "minor": "m", "69": "6/9", "m69": "m6/9", "mmaj7": "m(maj7)", "mmaj9": "m(maj9)"}
"""Suffixes that the data set writes otherwise than we read; ``alt`` is not ours either, but reads as 7alt."""
STACK = {"13": frozenset({5}), "maj13": frozenset({5})}
"""The eleventh, which the plain stack of thirds has and our table leaves out beside a major third."""
NINTH_LEFT_OUT = frozenset({"11", "13", "maj13", "m11", "m13"})
KNOWN_BAD = frozenset(
    {
        ("C", "major", (3, 3, 5, 5, 5, 3)),
        ("C", "7", (3, 3, 5, 3, 5, 3)),
        ("D", "major", (2, 5, 4, 2, 3, 2)),
        ("D", "major", (5, 5, 7, 7, 7, 5)),
        ("D", "m7", (5, 5, 7, 5, 6, 5)),
        ("E", "major", (4, 7, 6, 4, 5, 4)),
        ("E", "major", (7, 7, 9, 9, 9, 7)),
        ("E", "minor", (7, 7, 9, 9, 8, 7)),
        ("F", "major", (-1, 3, 3, 5, 6, 5)),
        ("F", "major", (5, 8, 7, 5, 6, 5)),
        ("F", "major", (8, 8, 10, 10, 10, 8)),
        ("F", "minor", (8, 8, 10, 10, 9, 8)),
        ("G", "major", (-1, 5, 5, 7, 8, 7)),
        ("F", "/A", (5, 3, 3, 5, 6, 0)),
        ("A", "m/G#", (-1, -1, 4, 5, 5, 5)),
    }
)
"""Names, suffixes and frets of version 0.5.1 that are gone from the maintainers' later data.

All thirteen plain chords that they changed are here (three more, of a suffix we do not read, are not). Slash
chords were made anew as a whole, about sixty, most of them sound ones, so being gone says nothing: the two
here were picked because they sound a foreign note, and that they are found proves nothing either."""


@dataclass(frozen=True, slots=True)
class Voicing:
    """A voicing by its name.

    Attributes:
        frets: From the lowest string, counted from the nut; -1 = not played.
        said: MIDI numbers that the data set gives. ``midi``: those of our fretboard.
        chord: As we read the name, or None.
    """

    key: str
    suffix: str
    frets: tuple[int, ...]
    said: tuple[int, ...]
    midi: tuple[int, ...]
    chord: Chord | None

    @property
    def foreign(self) -> frozenset[int]:
        """What sounds outside the chord, in half steps above the root."""
        assert self.chord is not None
        root = self.chord.root.semitone
        return frozenset((midi - root) % 12 for midi in self.midi if midi % 12 not in self.chord.semitones)

    @property
    def missing(self) -> frozenset[int]:
        """What the name asks for and does not sound; a fifth, and the ninth below an 11 or 13, may go."""
        assert self.chord is not None
        root = self.chord.root.semitone
        sounding = {midi % 12 for midi in self.midi}
        left_out = {7, 2} if self.chord.quality.name in NINTH_LEFT_OUT else {7}
        return frozenset((s - root) % 12 for s in self.chord.semitones - sounding) - left_out

    @property
    def inverted(self) -> bool:
        """Whether its lowest note is not the one the name puts lowest."""
        assert self.chord is not None
        return min(self.midi) % 12 != (self.chord.bass or self.chord.root).semitone

    @property
    def stacked(self) -> bool:
        """Whether what is foreign to our table belongs to the plain stack of thirds."""
        assert self.chord is not None
        return bool(self.foreign) and self.foreign <= STACK.get(self.chord.quality.name, frozenset())

    @property
    def spells(self) -> str:
        """The symbol that has exactly these notes, on the named root if there is one, or empty."""
        assert self.chord is not None
        sounding = {midi % 12 for midi in self.midi}
        roots = sorted(sounding, key=lambda s: (s != self.chord.root.semitone, s)) if self.chord else []
        for root in roots:
            for quality in QUALITIES.values():
                if quality.tones == frozenset((semitone - root) % 12 for semitone in sounding):
                    return Chord(_named(root), quality).symbol
        return ""


def _named(semitone: int) -> PitchClass:
    note = PitchClass.parse(("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")[semitone])
    assert note is not None
    return note


def read_voicings(path: Path) -> tuple[Voicing, ...]:
    """Read the data set."""
    guitar = Guitar()
    data: Any = json.loads(path.read_text("utf-8"))
    return tuple(
        _voicing(chord["key"], chord["suffix"], position, guitar)
        for chords in data["chords"].values()
        for chord in chords
        for position in chord["positions"]
    )


def _voicing(key: str, suffix: str, position: Any, guitar: Guitar) -> Voicing:
    base = position["baseFret"] - 1
    frets = tuple(fret + base if fret > 0 else fret for fret in position["frets"])
    midi = tuple(
        guitar.open_midi(guitar.strings - index) + fret for index, fret in enumerate(frets) if fret >= 0
    )
    chord = parse_chord(key + NAMES.get(suffix, suffix))
    return Voicing(
        key, suffix, frets, tuple(position["midi"]), midi, chord if isinstance(chord, Chord) else None
    )
