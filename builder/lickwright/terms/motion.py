"""Where a line begins and ends, and which way it goes: ``starting on``, ``descends``, ``walks up``."""

from __future__ import annotations

import re

_FIRST = (
    r"(?:begin(?:s|ning)?|began|start(?:s|ing|ed)?|opens|opening|sets? (?:out|off)|setting (?:out|off))"
    r" (?:on|with|from|at|over)"
)
_LAST = (
    r"(?:end(?:s|ing|ed)?|finish(?:es|ing|ed)?|clos(?:es|ing|ed)|conclud(?:es?|ing)|com(?:es?|ing) to rest)"
    r" (?:on|with|at|over)"
)
BOUNDARY = rf"(?:{_FIRST}|{_LAST})(?!\w)"
EDGE = r"(?:first|opening|last|final|closing) note(?!\w)(?! of (?!(?:the|this) (?:lick|bar|phrase)\b|bar\b))"
"""Pattern of a note that is called the first or the last: of the lick, of a bar."""
"""Pattern of a verb that says what stands first or last, with its preposition; in lower case."""

_UP = r"climb(?:s|ing|ed)?|ris(?:es?|ing)|rose"
_NO_DOWN = r"(?! (?:on|in|into|under|upon|over|out|off|behind|away|apart|together|where|between|at|silent)\b)"
"""Strokes fall on beats, fingers drop in."""
_DOWN = rf"(?:fall(?:s|ing)?|fell|drop(?:s|ping|ped)?|sink(?:s|ing)?|sank){_NO_DOWN}"
_GOES = r"(?:go(?:es|ing)?|went|runs?|running|ran|walk(?:s|ing|ed)?|steps?|mov(?:es?|ing)|com(?:es?|ing))"
DIRECTION = (
    rf"(?:(?:ascend|descend)(?:s|ing|ed)?|{_UP}|{_DOWN}|{_GOES} (?:straight |back )?(?:up|down))(?![\w-])"
)
"""Pattern of a word that says which way a line goes; in lower case."""

_IS_UP = re.compile(rf"ascend|{_UP}|\bup\b")


def read_boundary(text: str) -> str:
    """Return which end a boundary that the pattern has found speaks of: ``first`` or ``last``.

    >>> read_boundary("starting on"), read_boundary("ends with")
    ('first', 'last')
    """
    return "first" if re.match(rf"{_FIRST}|first|opening", text.casefold()) else "last"


def read_direction(text: str) -> tuple[str, bool]:
    """Return the way of a direction that the pattern has found, and whether all of the line goes it.

    >>> read_direction("descends"), read_direction("walks up"), read_direction("falls")
    (('down', True), ('up', False), ('down', False))
    """
    words = text.casefold()
    return ("up" if _IS_UP.search(words) else "down"), "scend" in words
