"""Degrees of a chord or scale in words: ``root``, ``flat seven``, ``blue third``, ``♭7``.

Conventions: a degree is its number and what is said of it. Nothing said leaves the size to the chord:
the third of A is major, of A minor minor.
"""

from __future__ import annotations

import re

from lickwright.terms.numbers import ORDINALS, read_number

NUMBERS = (2, 3, 4, 5, 6, 7, 9, 10, 11, 13)
"""Those that are spoken of beside the root."""

ALTERS: dict[str, int | None] = {
    "flat": -1,
    "flatted": -1,
    "flattened": -1,
    "lowered": -1,
    "blue": -1,
    "minor": -1,
    "dominant": -1,
    "diminished": None,
    "augmented": 1,
    "sharp": 1,
    "sharpened": 1,
    "raised": 1,
    "major": 0,
    "perfect": 0,
    "natural": 0,
}
"""Half steps away from the major scale's; None = as far as the number says (fifth 1, seventh 2)."""

ROOTS = ("root note", "root")
TONICS = ("key note", "keynote", "tonic", "home note")
LEADING = ("leading note", "leading tone")

_SUFFIXES = {2: "nd", 3: "rd"}
_ORDINAL = "|".join(f"{ORDINALS[number]}|{number}{_SUFFIXES.get(number, 'th')}" for number in NUMBERS)
_CARDINAL = "two|three|four|five|six|seven|nine|eleven|thirteen|[2-79]|11|13"
_ALTER = "|".join(sorted(ALTERS, key=len, reverse=True))

_STANDS = r"(?! (?:higher|lower|up|down|above|below|apart|away|further)\b)"
"""A distance is no degree: ``a third higher``."""

NAMED = rf"(?:{'|'.join((*ROOTS, *TONICS, *LEADING))})"
"""Pattern of a degree that is a name."""
ALTERED = (
    rf"(?:(?:{_ALTER})[ -](?:{_ORDINAL})|(?:flat|sharp|flatted)[ -](?:{_CARDINAL})"
    rf"|[b#♭♯](?:13|11|[2-79])(?:nd|rd|th)?)(?![\w-]){_STANDS}"
)
"""Pattern of a degree that says more than its number."""
PLAIN = rf"(?<!\ba )(?<!\ban )(?<!\bA )(?:{_ORDINAL})(?![\w-]){_STANDS}"
"""Pattern of an ordinal that may be a degree, if no noun follows."""


def read_degree(text: str) -> tuple[str, int, int | None] | None:
    """Read a degree.

    Returns:
        What it counts from (``chord``, or ``key`` for the tonic and the leading note), its number, and
        its alteration against the major scale (None: what the chord has); None when it is none.

    >>> read_degree("flat seven"), read_degree("3rd"), read_degree("♭7"), read_degree("tonic")
    (('chord', 7, -1), ('chord', 3, None), ('chord', 7, -1), ('key', 1, 0))
    """
    words = re.sub(r"[ -]+", " ", text.casefold())
    if words in ROOTS:
        return "chord", 1, 0
    if words in TONICS:
        return "key", 1, 0
    if words in LEADING:
        return "key", 7, 0
    if words[:1] in "b#♭♯" and (number := read_number(words[1:])) is not None:
        return "chord", number, -1 if words[0] in "b♭" else 1
    said, _, name = words.rpartition(" ")
    number = read_number(name)
    if number is None or number not in NUMBERS or (said and said not in ALTERS):
        return None
    if not said:
        return "chord", number, None
    alter = ALTERS[said]
    return "chord", number, alter if alter is not None else -2 if number == 7 else -1
