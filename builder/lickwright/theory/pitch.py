"""Spelled notes, without and with an octave.

Conventions: the letter is one of ``A`` to ``G``, ``alter`` counts half steps (sharps positive).
Pitch classes count half steps above C, 0 to 11. Positions on the line of fifths count fifths
above C (F -1, C 0, G 1, F# 6, Bb -2), so every spelling has its own. Octaves are scientific:
C4 is middle C, MIDI 60, and B#3 sounds like C4.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Self

from lickwright.terms import accidentals
from lickwright.theory.temperament import A4_HERTZ, hertz

LETTERS = "CDEFGAB"
NATURALS: dict[str, int] = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
"""Half steps of the plain letters above C."""
FIFTHS: dict[str, int] = {"F": -1, "C": 0, "G": 1, "D": 2, "A": 3, "E": 4, "B": 5}
"""The plain letters on the line of fifths."""


def _signed(letter: str, alter: int, signs: dict[int, str], sharp: str, flat: str) -> str:
    sign = signs.get(alter)
    if sign is None:  # beyond the table only arithmetic leads
        sign = (sharp if alter > 0 else flat) * abs(alter)
    return letter + sign


@dataclass(frozen=True, slots=True)
class PitchClass:
    """A spelled note without an octave, ``F#``.

    Attributes:
        letter: ``A`` to ``G``.
        alter: Half steps by which the accidental moves it; sharps positive.
    """

    letter: str
    alter: int = 0

    @property
    def semitone(self) -> int:
        """Half steps above C, 0 to 11."""
        return (NATURALS[self.letter] + self.alter) % 12

    @property
    def fifths(self) -> int:
        """Place on the line of fifths, C = 0."""
        return FIFTHS[self.letter] + 7 * self.alter

    def __str__(self) -> str:
        return _signed(self.letter, self.alter, accidentals.ASCII, "#", "b")

    @property
    def display(self) -> str:
        """As printed: ``F♯``, ``B♭``, ``C♯♯``."""
        return _signed(self.letter, self.alter, accidentals.SIGNS, "♯", "♭")

    @property
    def spoken(self) -> str:
        """As said: ``F sharp``, ``C double sharp``."""
        word = accidentals.WORDS.get(self.alter, f"altered by {self.alter} half steps")
        return f"{self.letter} {word}" if word else self.letter

    @classmethod
    def parse(cls, text: str) -> Self | None:
        """Read ``F#``, ``F♯``, ``Bb``, ``B♭``, ``C##``, ``Cx``, ``F♮``; the letter is a capital.

        Returns:
            The note, or ``None`` when the text is not one.
        """
        alter = accidentals.READINGS.get(text[1:]) if len(text) <= 4 else None
        return cls(text[0], alter) if alter is not None and text[:1] in NATURALS else None


_PITCH = re.compile(r"([A-G][#b♯♭♮x𝄪𝄫]{0,3})(-?[0-9]{1,2})")


@dataclass(frozen=True, slots=True)
class Pitch:
    """A spelled note in its octave, ``F#4``.

    Attributes:
        letter: ``A`` to ``G``.
        alter: Half steps by which the accidental moves it; sharps positive.
        octave: Scientific, counted by the letter: Cb4 is a half step below C4.
    """

    letter: str
    alter: int
    octave: int

    @property
    def midi(self) -> int:
        """MIDI number, C4 = 60."""
        return 12 * (self.octave + 1) + NATURALS[self.letter] + self.alter

    @property
    def name(self) -> PitchClass:
        """The note without its octave."""
        return PitchClass(self.letter, self.alter)

    def hertz(self, a4: float = A4_HERTZ) -> float:
        """Frequency in Hz in equal temperament."""
        return hertz(self.midi, a4)

    def __str__(self) -> str:
        return f"{self.name}{self.octave}"

    @property
    def display(self) -> str:
        """As printed: ``F♯4``."""
        return f"{self.name.display}{self.octave}"

    @property
    def spoken(self) -> str:
        """As said: ``F sharp 4``."""
        return f"{self.name.spoken} {self.octave}"

    @classmethod
    def parse(cls, text: str) -> Self | None:
        """Read ``E2``, ``F#4``, ``B♭3``.

        Returns:
            The pitch, or ``None`` when the text is not one.
        """
        found = _PITCH.fullmatch(text)
        name = PitchClass.parse(found[1]) if found else None
        return cls(name.letter, name.alter, int(found[2])) if found and name else None

    @classmethod
    def at(cls, midi: int, name: PitchClass) -> Self:
        """The pitch that sounds as ``midi`` and is written as ``name``.

        Raises:
            ValueError: When the name does not sound so: a mistake of the caller.
        """
        octave, rest = divmod(midi - NATURALS[name.letter] - name.alter, 12)
        if rest:
            raise ValueError(f"{name} does not sound as MIDI {midi}")
        return cls(name.letter, name.alter, octave - 1)
