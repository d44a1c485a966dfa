"""Strokes of the pick in words: ``upstroke``, ``down-stroke``, ``all down``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lickwright.terms.numbers import CARDINAL, read_number

_SIGNS = {"down": "d", "up": "u"}
OTHER = {"d": "u", "u": "d"}
"""The other stroke."""

STROKE = (
    r"(?:all[ -])?(?:down|up)[ -]?(?:strokes?|picks?)(?!\w)|all (?:down|up)(?![\w-])"
    r"|struck (?:down|up)(?:wards?)?(?!\w)"
    r"|strict(?:ly)? alternate(?: picking| strokes)?(?!\w)|alternate (?:picking|strokes)(?!\w)"
)
"""Pattern of a stroke, in lower case."""


def read_stroke(text: str) -> tuple[str, bool]:
    """Read a stroke that the pattern has found: ``d``, ``u`` or both in turn, ``du``; whether all are meant.

    Alternate picking, unless it is said to be strict, may be a hand in steady swing as well.

    >>> read_stroke("downstroke"), read_stroke("all up"), read_stroke("up-strokes")
    (('d', False), ('u', True), ('u', True))
    >>> read_stroke("strictly alternate"), read_stroke("alternate picking")
    (('du', True), ('du', False))
    """
    words = text.casefold()
    if "alternate" in words:
        return "du", "strict" in words or "strokes" in words
    return ("d" if "down" in words else "u"), words.startswith("all") or words.endswith("s")


_PART = (
    rf"(?:(?P<number>{CARDINAL}|an?) )?(?P<all>all[ -])?(?P<way>down|up)"
    r"(?P<noun>[ -]?(?:stroke|pick))?(?P<plural>s)?(?!\w|-(?!(?:down|up)\b|(?:down|up)[ -]?strokes?))"
)
_ONE = re.compile(_PART)
_NEXT = re.compile(rf"(?P<gap>,? (?:and |then |and then |followed by )?|[-–]){_PART}")
_LEFT_OUT = re.compile(
    r"\b(?:except|but (?:for|on|not|the)|other than|apart from|save|mostly|mainly|nearly|almost)\b"
)
_WHERE = re.compile(r",? (?:on|off|at|for|where|when|whenever|under|over|between)\b")


@dataclass(frozen=True, slots=True)
class StrokeList:
    """Strokes that are said one after another: ``two downstrokes and an up``.

    Attributes:
        start, end: Where they stand in their words.
        signs: ``d`` and ``u`` as often as each is said; a plural without a number once.
        open: Whether a plural leaves out how many there are.
        counted: Whether a number is said.
        ordered: Whether the words say what follows what.
    """

    start: int
    end: int
    signs: str
    open: bool
    counted: bool
    ordered: bool


def list_strokes(text: str) -> Iterator[StrokeList]:
    """Yield the lists of strokes in some words, those that name a stroke and no mere way up or down.

    >>> [(one.signs, one.counted) for one in list_strokes("Two downstrokes and an up, then climb up")]
    [('ddu', True)]
    """
    words, at = text.casefold(), 0
    while (found := _ONE.search(words, at)) is not None:
        parts, gaps = [found], list[str]()
        while (more := _NEXT.match(words, parts[-1].end())) is not None:
            parts.append(more)
            gaps.append(more["gap"])
        at = parts[-1].end()
        if any(part["noun"] or part["all"] for part in parts):
            numbers = [read_number(part["number"] or "one") or 1 for part in parts]
            yield StrokeList(
                parts[0].start(),
                at,
                "".join(_SIGNS[part["way"]] * n for part, n in zip(parts, numbers, strict=True)),
                any(p["all"] or (p["plural"] and not p["number"]) for p in parts),
                any(n > 1 for n in numbers),
                any(gap.strip() != "and" for gap in gaps),
            )


def limits_strokes(text: str, end: int) -> bool:
    """Whether words leave some strokes out, or say after a place where they are made.

    >>> limits_strokes("downstrokes except on the second string", 11), limits_strokes("downstrokes only", 11)
    (True, False)
    """
    words = text.casefold()
    return _LEFT_OUT.search(words) is not None or _WHERE.match(words, end) is not None
