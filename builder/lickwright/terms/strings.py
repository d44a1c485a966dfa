"""Strings by name: counted from 1, the highest-sounding, or by where they lie."""

from __future__ import annotations

HIGHEST = ("top", "highest", "thinnest", "high")
LOWEST = ("bottom", "lowest", "thickest")

SIDE = rf"(?:{'|'.join((*HIGHEST, *LOWEST))})"
"""Pattern of a word that names an outer string before ``string``."""


def read_side(text: str) -> int | None:
    """Read such a word: 1 for the highest-sounding string, -1 for the lowest, None for no such word.

    >>> read_side("top"), read_side("thickest"), read_side("middle")
    (1, -1, None)
    """
    word = text.casefold()
    return 1 if word in HIGHEST else -1 if word in LOWEST else None
