"""A guitar as a course states it: what sounds at a string and a fret.

Conventions: strings count from 1, frets from the capo; pitches are sounding MIDI numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from lickwright.instrument.tuning import STANDARD, Tuning


@dataclass(frozen=True, slots=True)
class Guitar:
    """An instrument, tuned.

    Attributes:
        tuning: The open strings without the capo.
        capo: Fret of the capo, 0 for none.
        frets: Frets on the neck, counted from the nut.
        scale_length: Nut to bridge in mm.
        sound: ``electric`` or ``acoustic``.
        hand: ``right`` or ``left``: which way the pictures face.
    """

    tuning: Tuning = STANDARD
    capo: int = 0
    frets: int = 22
    scale_length: float = 648.0
    sound: Literal["electric", "acoustic"] = "electric"
    hand: Literal["right", "left"] = "right"
    _open: tuple[int, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        sounding = tuple(pitch.midi + self.capo for pitch in self.tuning.strings)
        object.__setattr__(self, "_open", sounding)  # the class is frozen; this follows

    @property
    def strings(self) -> int:
        """Number of strings."""
        return self.tuning.count

    def has_string(self, string: int) -> bool:
        """Whether there is a string of that number."""
        return 1 <= string <= self.tuning.count

    def has_fret(self, fret: float) -> bool:
        """Whether a fret, counted from the capo, is on the neck."""
        return fret >= 0 and self.capo + fret <= self.frets

    @property
    def highest_fret(self) -> int:
        """The last fret, counted from the capo."""
        return self.frets - self.capo

    def open_midi(self, string: int) -> int:
        """What the open string sounds, capo included.

        Raises:
            IndexError: When there is no such string: ask :meth:`has_string` first.
        """
        if string < 1:
            raise IndexError(string)
        return self._open[string - 1]

    def midi(self, string: int, fret: int) -> int:
        """What a string sounds at a fret, capo included.

        Raises:
            IndexError: When there is no such string: ask :meth:`has_string` first.
        """
        return self.open_midi(string) + fret

    def places(self, midi: int) -> tuple[tuple[int, int], ...]:
        """Every place of a sounding pitch, (string, fret), from the highest-sounding string."""
        frets = ((string, midi - self.open_midi(string)) for string in range(1, self.strings + 1))
        return tuple((string, fret) for string, fret in frets if self.has_fret(fret))
