"""Scales beyond the modes: pentatonic, blues, bebop, symmetric.

Conventions: a scale is a row of degrees counted from the major scale on the tonic, rising; the
spelling follows the degrees (the blues scale on A has Eb, its flat five).

References: names and rows in common practice; the bebop scales after Baker, *How to Play Bebop*
(from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from lickwright.theory.key import MODES, degrees
from lickwright.theory.pitch import PitchClass

SCALES: dict[str, str] = {
    **MODES,
    "natural minor": "1 2 b3 4 5 b6 b7",
    "harmonic minor": "1 2 b3 4 5 b6 7",
    "melodic minor": "1 2 b3 4 5 6 7",
    "major pentatonic": "1 2 3 5 6",
    "minor pentatonic": "1 b3 4 5 b7",
    "blues": "1 b3 4 b5 5 b7",
    "minor blues": "1 b3 4 b5 5 b7",
    "major blues": "1 2 b3 3 5 6",
    "bebop dominant": "1 2 3 4 5 6 b7 7",
    "bebop major": "1 2 3 4 5 #5 6 7",
    "whole tone": "1 2 3 #4 #5 b7",
    "half-whole diminished": "1 b2 b3 3 #4 5 6 b7",
    "lydian dominant": "1 2 3 #4 5 6 b7",
    "mixolydian b9 b13": "1 b2 3 4 5 b6 b7",
}
"""Every scale by name, as degrees of the major scale."""

_INTERVALS = {kind: degrees(row) for kind, row in SCALES.items()}


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale on a tonic.

    Attributes:
        tonic: Spelled.
        kind: A name of :data:`SCALES`.
        pitch_classes: The spelled notes from the tonic up, the octave left out.
        semitones: Their pitch classes, 0 to 11.
    """

    tonic: PitchClass
    kind: str
    pitch_classes: tuple[PitchClass, ...] = field(init=False, compare=False, repr=False)
    semitones: frozenset[int] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        notes = tuple(interval.above(self.tonic) for interval in _INTERVALS[self.kind])
        object.__setattr__(self, "pitch_classes", notes)  # the class is frozen; these follow
        object.__setattr__(self, "semitones", frozenset(note.semitone for note in notes))

    @property
    def name(self) -> str:
        """In ASCII as the author writes it: ``G major pentatonic``."""
        return f"{self.tonic} {self.kind}"

    @property
    def display(self) -> str:
        """As printed: ``B♭ major pentatonic``."""
        return f"{self.tonic.display} {self.kind.replace('b9', '♭9').replace('b13', '♭13')}"

    @property
    def spoken(self) -> str:
        """As said: ``B flat major pentatonic``."""
        return f"{self.tonic.spoken} {self.kind.replace('b9', 'flat nine').replace('b13', 'flat thirteen')}"

    def __str__(self) -> str:
        return self.name

    def degrees(self) -> tuple[str, ...]:
        """The degree labels in order: ``1 2 3 5 6``."""
        return tuple(SCALES[self.kind].split())


@lru_cache(maxsize=256)
def _parse(text: str) -> Scale | None:
    tonic, _, kind = text.partition(" ")
    note = PitchClass.parse(tonic)
    kind = " ".join(kind.split())
    return Scale(note, kind) if note is not None and kind in SCALES else None


def parse_scale(text: str) -> Scale | None:
    """Read ``G major pentatonic``, ``A blues``, ``E dorian``; the case is exact.

    Returns:
        The scale, or ``None`` when the text is none.
    """
    return _parse(text) if len(text) <= 60 else None
