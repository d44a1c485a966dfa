"""Strokes of the pick in words: ``upstroke``, ``down-stroke``, ``all down``."""

from __future__ import annotations

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
