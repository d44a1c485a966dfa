"""How far words say that a lick is moved: ``up three frets``, ``a whole step lower``, ``down a fourth``."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from lickwright.terms.intervals import read_interval
from lickwright.terms.numbers import CARDINAL, read_number

_WAYS = {"up": 1, "higher": 1, "down": -1, "lower": -1}
_SIZE = (
    rf"(?:(?P<frets>{CARDINAL}|a|one) frets?|an? (?P<step>half|whole) step"
    r"|(?P<interval>an? (?:(?:minor|major|perfect) )?(?!half\b|whole\b)[a-z]+))"
)
_FORMS = (
    re.compile(rf"(?i)\b(?P<way>up|down) (?:by )?{_SIZE}\b"),
    re.compile(rf"(?i)\b{_SIZE} (?P<way>higher|lower|up|down)\b"),
)


class Move(NamedTuple):
    """By frets on its strings or by half steps; the sizes that are possible, down below zero."""

    by: Literal["frets", "pitch"]
    sizes: tuple[int, ...]
    start: int
    end: int


def read_move(text: str) -> Move | None:
    """Return the first distance that a text moves something by.

    >>> [read_move(words)[:2] for words in ("moved up two frets", "a whole step lower", "down a fourth")]
    [('frets', (2,)), ('pitch', (-2,)), ('pitch', (-5, -6))]
    """
    found = sorted((m for form in _FORMS for m in form.finditer(text)), key=lambda m: m.start())
    for match in found:
        way = _WAYS[match["way"].casefold()]
        if match["frets"]:
            number = 1 if match["frets"].casefold() == "a" else read_number(match["frets"]) or 0
            return Move("frets", (way * number,), match.start(), match.end())
        if match["step"]:
            size = 1 if match["step"].casefold() == "half" else 2
            return Move("pitch", (way * size,), match.start(), match.end())
        sizes = read_interval(match["interval"])
        if sizes is not None:
            return Move("pitch", tuple(way * size for size in sizes), match.start(), match.end())
    return None
