"""How far a bend goes, in words: ``half-step``, ``a whole step``, ``quarter-tone``."""

from __future__ import annotations

from fractions import Fraction

# half steps | words
_TABLE = """
1/2 | quarter tone, quarter step, half of a half step, quarter
1 | half step, semitone, half tone, half
2 | whole step, whole tone, full step, whole, full
3 | step and a half, tone and a half, minor third, one and a half steps
4 | two whole steps, two steps, major third
"""


def _rows() -> dict[str, Fraction]:
    amounts: dict[str, Fraction] = {}
    for row in _TABLE.strip().splitlines():
        size, words = row.split("|")
        amounts.update((word.strip(), Fraction(size.strip())) for word in words.split(","))
    return amounts


SPOKEN: dict[Fraction, str] = {
    Fraction(1, 2): "a quarter step",
    Fraction(1): "a half step",
    Fraction(3, 2): "three quarters of a step",
    Fraction(2): "a whole step",
    Fraction(5, 2): "a step and a quarter",
    Fraction(3): "a step and a half",
    Fraction(7, 2): "a step and three quarters",
    Fraction(4): "two steps",
    Fraction(5): "two and a half steps",
    Fraction(6): "three steps",
    Fraction(7): "three and a half steps",
}
"""Half steps, as a player says how far a string is bent."""


def say_amount(half_steps: Fraction) -> str:
    """Return how far a bend goes: ``a half step``, ``a step and a half``."""
    return SPOKEN.get(half_steps, f"{float(half_steps):g} half steps")


AMOUNTS: dict[str, Fraction] = _rows()
"""Words to half steps."""

_LONGEST_FIRST = sorted(AMOUNTS, key=lambda words: (-len(words), words))
AMOUNT = rf"(?:{'|'.join(words.replace(' ', '[ -]') for words in _LONGEST_FIRST)})"
"""Pattern of an amount before ``bend``: ``half-step bend``, ``full bend``."""
DISTANCE = rf"(?:{'|'.join(w.replace(' ', '[ -]') for w in _LONGEST_FIRST if ' ' in w or w == 'semitone')})"
"""Pattern of an amount that stands by itself: ``bent a whole step``."""


def read_amount(text: str) -> Fraction | None:
    """Read an amount, in half steps.

    >>> read_amount("whole-step"), read_amount("Quarter tone"), read_amount("bit")
    (Fraction(2, 1), Fraction(1, 2), None)
    """
    return AMOUNTS.get(text.casefold().replace("-", " "))
