"""Tunings of four to eight strings.

Conventions: an author writes the strings from the lowest to the highest, ``E2 A2 D3 G3 B3 E4``;
string 1 is the last of them. Pitches are the sounding ones, without a capo.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from lickwright.theory.pitch import Pitch

FEWEST_STRINGS = 4
MOST_STRINGS = 8


@dataclass(frozen=True, slots=True)
class Tuning:
    """The open strings.

    Attributes:
        strings: String 1 first, so the reverse of the author's order.
    """

    strings: tuple[Pitch, ...]

    @property
    def count(self) -> int:
        """Number of strings."""
        return len(self.strings)

    def open(self, string: int) -> Pitch:
        """The open string, counted from 1.

        Raises:
            IndexError: When there is no such string: check against :attr:`count` first.
        """
        if string < 1:
            raise IndexError(string)
        return self.strings[string - 1]

    @property
    def text(self) -> str:
        """As the author writes it, lowest string first."""
        return " ".join(str(pitch) for pitch in reversed(self.strings))

    def __str__(self) -> str:
        return self.text


@lru_cache(maxsize=256)
def _parse(text: str) -> Tuning | None:
    pitches = [Pitch.parse(word) for word in text.split()]
    strings = tuple(pitch for pitch in reversed(pitches) if pitch is not None)
    if len(strings) < len(pitches) or not FEWEST_STRINGS <= len(strings) <= MOST_STRINGS:
        return None
    return Tuning(strings)


def parse_tuning(text: str) -> Tuning | None:
    """Read ``E2 A2 D3 G3 B3 E4``: four to eight pitches, the lowest string first.

    Returns:
        The tuning, or ``None`` when the text is none.
    """
    return _parse(text) if len(text) <= 80 else None


STANDARD = Tuning(
    tuple(Pitch(letter, 0, octave) for letter, octave in zip("EBGDAE", (4, 3, 3, 3, 2, 2), strict=True))
)
"""The six strings of the guitar in common practice; a default of courses, never of code."""
