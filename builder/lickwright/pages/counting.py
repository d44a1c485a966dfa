"""Numbers, counts and lists in the words of a page."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from lickwright.model.bar import ROW_KINDS

_WORDS = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve"),
)
_CODE = re.compile(
    rf"(?:{'|'.join(ROW_KINDS)})\b|\S+[._/=]\S|\S+ (?:is given twice|has no value)|[pimcdu] |a on "
)
"""What begins with a token as it is typed: a row, an address, a finger or a stroke."""


def count(number: int, thing: str, *, digits: bool = False) -> str:
    """Return ``four bars``, ``one bar``, ``no bars``, ``13 bars``; in digits beside one that has no word."""
    word = str(number) if number and (digits or number >= len(_WORDS)) else _WORDS[number]
    return f"{word} {thing}{'' if number == 1 else 's'}"


def in_digits(numbers: Iterable[int]) -> bool:
    """Tell whether numbers of one line are all to be written in digits: one of them has no word."""
    return any(number >= len(_WORDS) for number in numbers)


def capital(text: str) -> str:
    """Return the text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def sentence(message: str) -> str:
    """Return a message with a capital, but a word of the code as typed: ``rh has 4 entries``."""
    return message if _CODE.match(message) else capital(message)


def listed(words: Sequence[str]) -> str:
    """Return ``A``, ``A and D``, ``A, D and E``."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1] if words else ""


def signs(text: str) -> str:
    """Return a degree with printed accidentals: ``♭7`` for ``b7``."""
    return text.replace("b", "♭").replace("#", "♯")
