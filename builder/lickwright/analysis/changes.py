"""The changes a piece is played over, and what each note is to each chord.

Conventions: times are whole ticks of the piece's own grid (exact, and fast to compare); pitch
classes 0 to 11. What a note is to a chord: ``t`` tone, ``f`` free tension, ``c`` conditional
tension, ``a`` avoid note, ``.`` none of them (the columns of ``theory.quality``).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from lickwright.theory.chord import Chord, ChordSymbol

NOTHING = "." * 12


@dataclass(frozen=True, slots=True)
class Change:
    """A chord of the changes from where it begins.

    Attributes:
        start: In ticks from the first note of the piece, as played.
        symbol: The chord.
        relation: Twelve letters, one a pitch class: what it is to the chord.
        root: Pitch class of the root; -1 for no chord.
        major_third: Whether the chord has one (a blue third rubs against it).
        dominant: Whether it is a dominant.
        minor: Whether its only third is minor.
    """

    start: int
    symbol: ChordSymbol
    relation: str
    root: int
    major_third: bool
    dominant: bool
    minor: bool = False

    @property
    def harmony(self) -> bool:
        """False over N.C."""
        return self.root >= 0


@lru_cache(maxsize=512)
def _relation(chord: Chord) -> str:
    quality, root = chord.quality, chord.root.semitone
    letters = []
    for pitch_class in range(12):
        above = (pitch_class - root) % 12
        if pitch_class in chord.semitones:
            letters.append("t")
        elif above in quality.free:
            letters.append("f")
        elif above in quality.conditional:
            letters.append("c")
        elif above in quality.avoid:
            letters.append("a")
        else:
            letters.append(".")
    return "".join(letters)


def change(start: int, symbol: ChordSymbol) -> Change:
    """Return a chord of the changes with its table worked out."""
    if not isinstance(symbol, Chord):
        return Change(start, symbol, NOTHING, -1, major_third=False, dominant=False)
    return Change(
        start,
        symbol,
        _relation(symbol),
        symbol.root.semitone,
        symbol.has_major_third,
        symbol.is_dominant,
        3 in symbol.quality.tones and not symbol.has_major_third,
    )
