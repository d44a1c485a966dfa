"""Numbers as words, digits, ordinals and numerals: ``five``, ``5``, ``fifth``, ``5th``, ``V``."""

from __future__ import annotations

CARDINALS: tuple[str, ...] = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"),
    *("twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
    *("twenty", "twenty-one", "twenty-two", "twenty-three", "twenty-four"),
)
"""By their number."""

ORDINALS: tuple[str, ...] = (
    *("zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"),
    *("tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth"),
    *("seventeenth", "eighteenth", "nineteenth", "twentieth", "twenty-first", "twenty-second"),
    *("twenty-third", "twenty-fourth"),
)
"""By their number; the ``zeroth`` only keeps the places."""

_NUMERALS = ((10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))

_READINGS: dict[str, int] = {
    **{word: number for number, word in enumerate(CARDINALS)},
    **{word: number for number, word in enumerate(ORDINALS) if number},
}

CARDINAL = rf"(?:{'|'.join(sorted(CARDINALS[1:], key=lambda w: (-len(w), w)))}|[0-9]{{1,3}})"
"""Pattern of a counting number, in lower case."""
ORDINAL = rf"(?:{'|'.join(sorted(ORDINALS[1:], key=lambda w: (-len(w), w)))}|[0-9]{{1,2}}(?:st|nd|rd|th))"
"""Pattern of an ordinal, in lower case."""


def read_number(text: str) -> int | None:
    """Read a number in any of its forms.

    >>> [read_number(word) for word in ("five", "5", "Fifth", "5th", "fin")]
    [5, 5, 5, 5, None]
    """
    word = text.casefold()
    known = _READINGS.get(word)
    if known is not None:
        return known
    digits = word[:-2] if word[-2:] in ("st", "nd", "rd", "th") else word
    return int(digits) if digits.isascii() and digits.isdigit() else None


def roman(number: int) -> str:
    """Return a number as positions are written; nothing for 0.

    >>> roman(14)
    'XIV'
    """
    made = ""
    for value, sign in _NUMERALS:
        made += sign * (number // value)
        number %= value
    return made
