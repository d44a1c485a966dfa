"""Intervals in words: ``an octave``, ``sixths``, ``a minor third``."""

from __future__ import annotations

import re

# name | half steps
_TABLE = """
second | 1 2
third | 3 4
fourth | 5
fifth | 7
sixth | 8 9
seventh | 10 11
octave | 12
ninth | 13 14
tenth | 15 16
"""

SIZES: dict[str, tuple[int, ...]] = {
    name.strip(): tuple(map(int, sizes.split()))
    for name, sizes in (row.split("|") for row in _TABLE.strip().splitlines())
}
"""Half steps of an interval when nothing more is said of it: the minor, then the major one."""

_NAMES = "|".join(SIZES)
INTERVAL = (
    rf"(?:an? (?:(?:minor|major|perfect)[ -])?(?:{_NAMES})(?! of | up| down| higher| lower| above| below)"
    rf"|(?:(?:minor|major|perfect)[ -])?(?:{_NAMES})s)(?![\w-])"
)
"""Pattern of an interval: with its article, or in the plural."""


def read_interval(text: str) -> tuple[int, ...] | None:
    """Read an interval: the half steps it may have.

    >>> read_interval("a minor third"), read_interval("sixths"), read_interval("an octave")
    ((3,), (8, 9), (12,))
    """
    words = re.sub(r"^an? |s$", "", text.casefold().replace("-", " "))
    said, _, name = words.rpartition(" ")
    sizes = SIZES.get(name)
    if sizes is None or not said or said == "perfect" or len(sizes) == 1:
        return sizes
    return (sizes[0],) if said == "minor" else (sizes[-1],)
