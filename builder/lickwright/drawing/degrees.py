"""Degrees as they are written on a dot and as they are said."""

from __future__ import annotations

from lickwright.terms.accidentals import SIGNS, WORDS
from lickwright.terms.numbers import ORDINALS


def signed(degree: str) -> str:
    """Return a degree with printed accidentals.

    >>> signed("b7")
    '♭7'
    """
    return degree.replace("b", SIGNS[-1]).replace("#", SIGNS[1])


def spoken(degree: str) -> str:
    """Return a degree in words.

    >>> spoken("1"), spoken("b7"), spoken("bb7"), spoken("#4")
    ('the root', 'the flat seventh', 'the double flat seventh', 'the sharp fourth')
    """
    if degree == "1":
        return "the root"
    number = degree.lstrip("b#")
    alter = degree.count("#") - degree.count("b")
    sign = f"{WORDS[alter]} " if alter else ""
    return f"the {sign}{ORDINALS[int(number)]}"
