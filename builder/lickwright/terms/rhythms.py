"""Note values without a number before them: ``triplets``, ``sixteenths``; meters: ``3/4``."""

from __future__ import annotations

import re
from fractions import Fraction

TUPLETS: dict[str, int] = {"triplet": 3, "quintuplet": 5, "sextuplet": 6, "septuplet": 7}
"""Groups, by how many notes they have."""
VALUES: dict[str, Fraction] = {
    "whole note": Fraction(4),
    "half note": Fraction(2),
    "quarter note": Fraction(1),
    "eighth note": Fraction(1, 2),
    "sixteenth note": Fraction(1, 4),
}
"""Values in quarters."""

RHYTHM = (
    rf"(?:(?:eighth|quarter|sixteenth)[ -](?:note )?)?(?:{'|'.join(TUPLETS)})s?(?![\w-])"
    r"|(?:whole|half|quarter|eighth|sixteenth) notes(?![\w-])|(?:eighths|sixteenths)(?![\w-])"
    r"|[0-9]{1,2}/(?:2|4|8|16)(?![\w/])(?: time(?!\w))?"
)
"""Pattern of such a value, in lower case."""


def read_rhythm(text: str) -> str | None:
    """Return the group, the value in the singular, or the meter that is named.

    >>> read_rhythm("eighth-note triplets"), read_rhythm("sixteenths"), read_rhythm("3/4 time")
    ('triplet', 'sixteenth note', '3/4')
    """
    words = text.casefold().replace("-", " ")
    if "/" in words:
        return words.removesuffix(" time")
    tuplet = next((name for name in TUPLETS if name in words), None)
    return tuplet or next((name for name in VALUES if re.search(rf"\b{name.split()[0]}", words)), None)
