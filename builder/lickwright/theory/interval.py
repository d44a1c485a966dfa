"""Intervals and scale degrees.

Conventions: an interval is a number of letters and a number of half steps; compound ones keep
their size (a ninth is 8 letters). A degree label counts from the major scale and is taken within
the octave: ``1 b2 2 b3 3 4 #4 b5 5 #5 b6 6 bb7 b7 7``; 9 is 2, 11 is 4, 13 is 6.

References: the interval and degree table of the handbook of harmony in common practice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Self

from lickwright.terms import accidentals
from lickwright.theory.pitch import LETTERS, NATURALS, PitchClass

MAJOR_SCALE = (0, 2, 4, 5, 7, 9, 11)
"""Half steps of the major scale: the size of the major and perfect intervals by letters."""

_NUMBERS = (
    *("unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave"),
    *("ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth"),
)
_PERFECT = {0: "perfect", 1: "augmented", 2: "doubly augmented", -1: "diminished", -2: "doubly diminished"}
_IMPERFECT = {
    0: "major",
    -1: "minor",
    1: "augmented",
    2: "doubly augmented",
    -2: "diminished",
    -3: "doubly diminished",
}


@dataclass(frozen=True, slots=True)
class Interval:
    """The distance from a lower note to a higher one.

    Attributes:
        steps: Letters passed, unison 0, third 2, ninth 8.
        semitones: Half steps.
    """

    steps: int
    semitones: int

    @property
    def alter(self) -> int:
        """Half steps by which it differs from the major or perfect interval of its letters."""
        octaves, step = divmod(self.steps, 7)
        return self.semitones - 12 * octaves - MAJOR_SCALE[step]

    @property
    def simple(self) -> Interval:
        """The interval within the octave: a ninth as a second."""
        octaves, step = divmod(self.steps, 7)
        return Interval(step, self.semitones - 12 * octaves)

    @property
    def name(self) -> str:
        """In words: ``minor third``, ``augmented fourth``, ``major ninth``."""
        words = _PERFECT if self.steps % 7 in (0, 3, 4) else _IMPERFECT
        number = _NUMBERS[self.steps] if self.steps < len(_NUMBERS) else f"{self.steps + 1}th"
        return f"{words.get(self.alter, f'altered ({self.alter:+d})')} {number}"

    @property
    def label(self) -> str:
        """As a degree within the octave: ``b3``, ``#4``, ``bb7``."""
        return degree_label(self)

    def above(self, note: PitchClass) -> PitchClass:
        """The note at this interval above another, spelled."""
        octaves, place = divmod(LETTERS.index(note.letter) + self.steps, 7)
        letter = LETTERS[place]
        natural = NATURALS[letter] - NATURALS[note.letter] + 12 * octaves
        return PitchClass(letter, note.alter + self.semitones - natural)

    @classmethod
    def between(cls, low: PitchClass, high: PitchClass) -> Self:
        """The interval, within the octave, from one spelled note up to another."""
        steps = (LETTERS.index(high.letter) - LETTERS.index(low.letter)) % 7
        natural = (NATURALS[high.letter] - NATURALS[low.letter]) % 12
        return cls(steps, natural + high.alter - low.alter)


def degree_label(interval: Interval) -> str:
    """The degree label of an interval, within the octave: ``1``, ``b3``, ``#4``, ``bb7``."""
    alter = interval.alter
    sign = accidentals.ASCII.get(alter)
    if sign is None:
        sign = ("#" if alter > 0 else "b") * abs(alter)
    return f"{sign}{interval.steps % 7 + 1}"


_DEGREE = re.compile(r"(##|bb|#|b|♯♯|♭♭|♯|♭|♮)?([1-9]|1[0-5])")


def parse_degree(text: str) -> Interval | None:
    """Read a degree, ``b7``, ``♭7``, ``#11``; octave equals are one: 9 is 2, 13 is 6.

    Returns:
        The interval above the root within the octave, or ``None`` when the text is no degree.
    """
    found = _DEGREE.fullmatch(text)
    if found is None:
        return None
    step = (int(found[2]) - 1) % 7
    return Interval(step, MAJOR_SCALE[step] + accidentals.READINGS[found[1] or ""])
