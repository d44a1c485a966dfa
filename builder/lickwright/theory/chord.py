"""Chords: a root, a quality and perhaps another bass.

Conventions: a symbol is canonical in ASCII and house style (``Bbm7b5/F``); the display has the
printed accidentals. Degrees are labels within the octave, spelled by the chord where it contains
the note. ``N.C.`` is a chord symbol of its own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from lickwright.theory.chord_symbol import LONGEST, read_symbol, suggest_symbol
from lickwright.theory.interval import Interval
from lickwright.theory.pitch import PitchClass
from lickwright.theory.quality import QUALITIES, Quality, quality

if TYPE_CHECKING:
    from typing import Self

__all__ = [
    "NO_CHORD",
    "QUALITIES",
    "Chord",
    "ChordSymbol",
    "NoChord",
    "Quality",
    "parse_chord",
    "quality",
    "suggest_chord",
]

_CHROMATIC_MAJOR = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")
_CHROMATIC_MINOR = ("1", "b2", "2", "b3", "3", "4", "b5", "5", "b6", "6", "b7", "7")
_ACCIDENTAL = re.compile(r"[#b](?=[0-9])")


@dataclass(frozen=True, slots=True)
class Chord:
    """A chord by its symbol.

    Attributes:
        root: Spelled root.
        quality: A row of the table of qualities.
        bass: Spelled bass after a slash, or ``None``.
        pitch_classes: The spelled notes in stacked order, a bass outside the chord last.
        semitones: The pitch classes that sound, 0 to 11, the bass included.
    """

    root: PitchClass
    quality: Quality
    bass: PitchClass | None = None
    pitch_classes: tuple[PitchClass, ...] = field(init=False, compare=False, repr=False)
    semitones: frozenset[int] = field(init=False, compare=False, repr=False)
    _degrees: tuple[str, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        root = self.root.semitone
        notes = tuple(interval.above(self.root) for interval in self.quality.intervals)
        minor = 3 in self.quality.tones and 4 not in self.quality.tones
        table = _CHROMATIC_MINOR if minor else _CHROMATIC_MAJOR
        degrees = {(root + above) % 12: label for above, label in enumerate(table)}
        sounding = {note.semitone for note in notes}
        if self.bass is not None and self.bass.semitone not in sounding:
            notes = (*notes, self.bass)
            degrees[self.bass.semitone] = Interval.between(self.root, self.bass).label
        for note, interval in zip(notes, self.quality.intervals, strict=False):
            degrees[note.semitone] = interval.label
        put = object.__setattr__  # the class is frozen; these follow from the fields
        put(self, "pitch_classes", notes)
        put(self, "semitones", frozenset(note.semitone for note in notes))
        put(self, "_degrees", tuple(degrees[semitone] for semitone in range(12)))

    @classmethod
    def of(cls, root: str, quality_name: str, bass: str | None = None) -> Self:
        """A chord by names of our own tables: ``Chord.of("Bb", "m7b5", "F")``.

        Raises:
            KeyError: When a name is none: a mistake of the caller.
        """
        note, low = PitchClass.parse(root), PitchClass.parse(bass) if bass is not None else None
        if note is None or (low is None and bass is not None):
            raise KeyError(root, bass)
        return cls(note, QUALITIES[quality_name], low)

    @property
    def symbol(self) -> str:
        """Canonical in ASCII: ``Bbm7b5/F``."""
        slash = "" if self.bass is None else f"/{self.bass}"
        return f"{self.root}{self.quality.suffixes[0]}{slash}"

    @property
    def display(self) -> str:
        """As printed: ``B♭m7♭5/F``."""
        suffix = _ACCIDENTAL.sub(lambda sign: "♯" if sign[0] == "#" else "♭", self.quality.suffixes[0])
        slash = "" if self.bass is None else f"/{self.bass.display}"
        return f"{self.root.display}{suffix}{slash}"

    @property
    def spoken(self) -> str:
        """As said: ``B flat minor seven flat five over F``."""
        over = "" if self.bass is None else f" over {self.bass.spoken}"
        return f"{self.root.spoken} {self.quality.spoken}{over}"

    def __str__(self) -> str:
        return self.symbol

    @property
    def has_major_third(self) -> bool:
        """Whether the quality contains the major third."""
        return 4 in self.quality.tones

    @property
    def is_dominant(self) -> bool:
        """Whether it has the minor seventh over a major or suspended third."""
        tones = self.quality.tones
        return 10 in tones and (4 in tones or 3 not in tones)

    def degree_of(self, note: int | PitchClass) -> str:
        """The degree of a note over the root, within the octave.

        Args:
            note: A pitch class 0 to 11 (a MIDI number does too), or a spelled note.

        Returns:
            For a chord tone the chord's own label (A over F7 is ``3``, D# over C7#9 is ``#2``); else
            the label of the note's spelling, for a number the conventional one.
        """
        if isinstance(note, PitchClass):
            if note.semitone not in self.semitones:
                interval = Interval.between(self.root, note)
                if abs(interval.alter) <= 1:
                    return interval.label
            return self._degrees[note.semitone]
        return self._degrees[note % 12]

    def same_as(self, other: Chord | NoChord) -> bool:
        """Whether root, quality and bass are the same once enharmonic spelling is evened out."""
        return (
            isinstance(other, Chord)
            and self.quality.name == other.quality.name
            and self.root.semitone == other.root.semitone
            and (self.bass or self.root).semitone == (other.bass or other.root).semitone
        )


@dataclass(frozen=True, slots=True)
class NoChord:
    """``N.C.``: the band is silent or plays no harmony; nothing is judged against it."""

    @property
    def symbol(self) -> str:
        """``N.C.``."""
        return "N.C."

    @property
    def display(self) -> str:
        """``N.C.``."""
        return "N.C."

    @property
    def spoken(self) -> str:
        """``no chord``."""
        return "no chord"

    def __str__(self) -> str:
        return "N.C."

    @property
    def pitch_classes(self) -> tuple[PitchClass, ...]:
        """None."""
        return ()

    @property
    def semitones(self) -> frozenset[int]:
        """None."""
        return frozenset()

    def same_as(self, other: Chord | NoChord) -> bool:
        """Whether the other is ``N.C.`` too."""
        return isinstance(other, NoChord)


NO_CHORD = NoChord()
ChordSymbol: TypeAlias = Chord | NoChord


@lru_cache(maxsize=4096)
def _parse(text: str) -> ChordSymbol | None:
    found = read_symbol(text)
    if found is None:
        return None
    return NO_CHORD if found == "N.C." else Chord(*found)


def parse_chord(text: str) -> ChordSymbol | None:
    """Read a chord symbol in any usual spelling: ``F#m7``, ``B♭△7``, ``C6/9``, ``G/B``, ``N.C.``.

    Returns:
        The chord, ``NO_CHORD``, or ``None`` when the text is no chord symbol. Never raises.
    """
    return _parse(text) if len(text) <= LONGEST else None


def suggest_chord(text: str) -> str | None:
    """The nearest right spelling of a chord symbol that does not read: ``Am7-5`` is ``Am7b5``.

    Returns:
        A symbol that :func:`parse_chord` reads, or ``None`` when nothing is near.
    """
    found = suggest_symbol(text)
    chord = parse_chord(found) if found is not None else None
    return chord.symbol if chord is not None else None
