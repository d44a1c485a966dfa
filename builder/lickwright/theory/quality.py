"""Chord qualities: what each contains, how it is written, and what may sound over it.

Conventions: ``degrees`` count from the major scale of the root. The classifier's columns are half
steps above the root, 0 to 11: the chord's *tones*, tensions that are *free*, tensions that are
*conditional* (they must resolve by step, or pass), and notes to *avoid*. A degree written in the
symbol is always a tone. 13 leaves out the 11th beside a major third; m13 keeps it.

References: chord spelling by stacked intervals (common practice); the colours after chord-scale
teaching (Nettles and Graf, *Chord Scale Theory*, from memory; avoid notes as cited from Haerle and
Nettles). The colours of the plain diminished triad, ``11``,
``7b13`` and ``7b9sus4`` chords are our own judgement.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from lickwright.theory.interval import Interval, parse_degree

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


@dataclass(frozen=True, slots=True)
class Quality:
    """A kind of chord. Two are equal when their names are.

    Attributes:
        name: ``major``, else the house suffix: ``m7b5``.
        title: In words for a table: ``half-diminished seventh``.
        spoken: As said after the root: ``minor seven flat five``.
        intervals: Above the root, in stacked order, compound where the symbol means it.
        suffixes: Usual spellings, the house style first.
        tones: Half steps of the intervals within the octave.
        free: Tensions that need no resolution.
        conditional: Tensions that must resolve by step or pass.
        avoid: Notes that clash when held.
    """

    name: str
    title: str = field(compare=False)
    spoken: str = field(compare=False)
    intervals: tuple[Interval, ...] = field(compare=False, repr=False)
    suffixes: tuple[str, ...] = field(compare=False, repr=False)
    tones: frozenset[int] = field(compare=False, repr=False)
    free: frozenset[int] = field(compare=False, repr=False)
    conditional: frozenset[int] = field(compare=False, repr=False)
    avoid: frozenset[int] = field(compare=False, repr=False)

    def __reduce__(self) -> tuple[Callable[[str], Quality], tuple[str]]:
        """Travel between processes by name."""
        return quality, (self.name,)


# family: free, conditional, avoid
_COLOURS: dict[str, tuple[str, str, str]] = {
    "major": ("2 9", "11 6", "5"),
    "sixth": ("2", "11 6", "5"),
    "major seventh": ("2 9", "6", "5"),
    "dominant": ("2 9", "1 3 6 8", "5 11"),
    "flat thirteenth": ("2", "1 3 6", "5 9 11"),
    "altered": ("", "1 3 6 8", "5 11"),
    "suspended": ("2 9", "4", ""),
    "suspended flat nine": ("", "3 8 9", "2 4"),
    "minor": ("2 5 10", "9 11", "1 8"),
    "minor sixth": ("2 5", "11 10", "1 8"),
    "half-diminished": ("5 8", "2", "1"),
    "diminished triad": ("5 8 9 10", "2 11", "1"),
    "diminished": ("", "2 5 8 11", ""),
    "augmented": ("2", "6", "5"),
    "power": ("2 3 4 5 9 10", "", ""),
}

# name | title | spoken | degrees | family | spellings, the house style first ("." is the bare root)
_TABLE = """
major | major triad | major | 1 3 5 | major | . maj M
m | minor triad | minor | 1 b3 5 | minor | m min - mi
dim | diminished triad | diminished | 1 b3 b5 | diminished triad | dim ° o
aug | augmented triad | augmented | 1 3 #5 | augmented | aug +
sus4 | suspended fourth | sus four | 1 4 5 | suspended | sus4 sus
sus2 | suspended second | sus two | 1 2 5 | suspended | sus2
5 | power chord | five | 1 5 | power | 5
add9 | added ninth | add nine | 1 3 5 9 | major | add9 (add9) add2
add11 | added eleventh | add eleven | 1 3 5 11 | major | add11 (add11) add4
madd9 | minor, added ninth | minor add nine | 1 b3 5 9 | minor | madd9 m(add9) minadd9 -add9 madd2
6 | sixth | six | 1 3 5 6 | sixth | 6 maj6 M6
6/9 | six-nine | six-nine | 1 3 5 6 9 | sixth | 6/9 69 6add9 6(9) maj6/9
m6 | minor sixth | minor six | 1 b3 5 6 | minor sixth | m6 min6 -6
m6/9 | minor six-nine | minor six-nine | 1 b3 5 6 9 | minor sixth | m6/9 m69 min6/9 -6/9
7 | dominant seventh | seven | 1 3 5 b7 | dominant | 7 dom7
9 | dominant ninth | nine | 1 3 5 b7 9 | dominant | 9 dom9
11 | dominant eleventh | eleven | 1 3 5 b7 9 11 | dominant | 11
13 | dominant thirteenth | thirteen | 1 3 5 b7 9 13 | dominant | 13
maj7 | major seventh | major seven | 1 3 5 7 | major seventh | maj7 M7 Δ △ Δ7 △7 ma7
maj9 | major ninth | major nine | 1 3 5 7 9 | major seventh | maj9 M9 Δ9 △9 ma9
maj13 | major thirteenth | major thirteen | 1 3 5 7 9 13 | major seventh | maj13 M13 Δ13 △13
m7 | minor seventh | minor seven | 1 b3 5 b7 | minor | m7 min7 -7 mi7
m9 | minor ninth | minor nine | 1 b3 5 b7 9 | minor | m9 min9 -9 mi9
m11 | minor eleventh | minor eleven | 1 b3 5 b7 9 11 | minor | m11 min11 -11
m13 | minor thirteenth | minor thirteen | 1 b3 5 b7 9 11 13 | minor | m13 min13 -13
m7add11 | minor seventh, added eleventh | minor seven add eleven | 1 b3 5 b7 11 | minor | m7add11 m7(add11) m7add4
m(maj7) | minor-major seventh | minor major seven | 1 b3 5 7 | minor sixth | m(maj7) mMaj7 mmaj7 mM7 minmaj7 -Δ7 mΔ
m(maj9) | minor-major ninth | minor major nine | 1 b3 5 7 9 | minor sixth | m(maj9) mMaj9 mmaj9 mM9 -Δ9
m7b5 | half-diminished seventh | minor seven flat five | 1 b3 b5 b7 | half-diminished | m7b5 m7(b5) ø ø7 min7b5 -7b5
dim7 | diminished seventh | diminished seven | 1 b3 b5 bb7 | diminished | dim7 °7 o7
7sus4 | dominant seventh, suspended fourth | seven sus four | 1 4 5 b7 | suspended | 7sus4 7sus 7(sus4)
9sus4 | dominant ninth, suspended fourth | nine sus four | 1 4 5 b7 9 | suspended | 9sus4 9sus
13sus4 | dominant thirteenth, suspended fourth | thirteen sus four | 1 4 5 b7 9 13 | suspended | 13sus4 13sus
7b9sus4 | suspended seventh, flat nine | seven flat nine sus four | 1 4 5 b7 b9 | suspended flat nine | 7b9sus4 7sus4b9 7sus4(b9)
7b5 | seven flat five | seven flat five | 1 3 b5 b7 | dominant | 7b5 7(b5)
7#5 | augmented seventh | seven sharp five | 1 3 #5 b7 | augmented | 7#5 7(#5) aug7 +7 7aug
7b9 | seven flat nine | seven flat nine | 1 3 5 b7 b9 | altered | 7b9 7(b9)
7#9 | seven sharp nine | seven sharp nine | 1 3 5 b7 #9 | altered | 7#9 7(#9)
7#11 | seven sharp eleven | seven sharp eleven | 1 3 5 b7 #11 | dominant | 7#11 7(#11)
7b13 | seven flat thirteen | seven flat thirteen | 1 3 5 b7 b13 | flat thirteenth | 7b13 7(b13)
7b5b9 | seven flat five flat nine | seven flat five flat nine | 1 3 b5 b7 b9 | altered | 7b5b9 7b9b5 7(b5,b9)
7#5b9 | seven sharp five flat nine | seven sharp five flat nine | 1 3 #5 b7 b9 | altered | 7#5b9 7b9#5 7(#5,b9)
7b5#9 | seven flat five sharp nine | seven flat five sharp nine | 1 3 b5 b7 #9 | altered | 7b5#9 7#9b5 7(b5,#9)
7#5#9 | seven sharp five sharp nine | seven sharp five sharp nine | 1 3 #5 b7 #9 | altered | 7#5#9 7#9#5 7(#5,#9)
7b9b13 | seven flat nine flat thirteen | seven flat nine flat thirteen | 1 3 5 b7 b9 b13 | altered | 7b9b13 7(b9,b13)
7alt | altered dominant | seven altered | 1 3 b7 b9 #9 #11 b13 | altered | 7alt alt 7(alt)
9b5 | nine flat five | nine flat five | 1 3 b5 b7 9 | dominant | 9b5 9(b5)
9#5 | augmented ninth | nine sharp five | 1 3 #5 b7 9 | augmented | 9#5 9(#5) aug9 +9
9#11 | nine sharp eleven | nine sharp eleven | 1 3 5 b7 9 #11 | dominant | 9#11 9(#11)
13b9 | thirteen flat nine | thirteen flat nine | 1 3 5 b7 b9 13 | altered | 13b9 13(b9)
13#11 | thirteen sharp eleven | thirteen sharp eleven | 1 3 5 b7 9 #11 13 | dominant | 13#11 13(#11)
maj7b5 | major seventh, flat five | major seven flat five | 1 3 b5 7 | major seventh | maj7b5 maj7(b5) M7b5
maj7#5 | augmented major seventh | major seven sharp five | 1 3 #5 7 | augmented | maj7#5 maj7(#5) M7#5 augmaj7 +M7
maj7#11 | major seventh, sharp eleven | major seven sharp eleven | 1 3 5 7 #11 | major seventh | maj7#11 maj7(#11) M7#11
maj9#11 | major ninth, sharp eleven | major nine sharp eleven | 1 3 5 7 9 #11 | major seventh | maj9#11 maj9(#11) M9#11
"""  # noqa: E501  (a table reads by its rows)


def _interval(degree: str) -> Interval:
    found = parse_degree(degree)
    assert found is not None, degree  # our own table
    if int(degree.lstrip("#b")) > 7:
        return Interval(found.steps + 7, found.semitones + 12)
    return found


def _half_steps(text: str) -> frozenset[int]:
    return frozenset(int(number) for number in text.split())


def _read_row(row: str) -> Quality:
    name, title, spoken, degrees, family, spellings = (cell.strip() for cell in row.split("|"))
    intervals = tuple(_interval(degree) for degree in degrees.split())
    tones = frozenset(interval.semitones % 12 for interval in intervals)
    free, conditional, avoid = (_half_steps(cell) - tones for cell in _COLOURS[family])
    suffixes = tuple("" if spelling == "." else spelling for spelling in spellings.split())
    return Quality(name, title, spoken, intervals, suffixes, tones, free, conditional, avoid)


QUALITIES: Mapping[str, Quality] = MappingProxyType(
    {row.name: row for row in map(_read_row, _TABLE.strip().splitlines())}
)
"""Every quality by its name, in the order of the table."""


def quality(name: str) -> Quality:
    """The quality of a name.

    Raises:
        KeyError: When the table has none of that name: a mistake of the caller.
    """
    return QUALITIES[name]
