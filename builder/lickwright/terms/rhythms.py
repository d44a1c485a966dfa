"""Note values without a number before them: ``triplets``, ``sixteenths``."""

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
)
"""Pattern of such a value, in lower case."""


def read_rhythm(text: str) -> str | None:
    """Return the group or the value that is named, in the singular.

    >>> read_rhythm("eighth-note triplets"), read_rhythm("sixteenths"), read_rhythm("quarter notes")
    ('triplet', 'sixteenth note', 'quarter note')
    """
    words = text.casefold().replace("-", " ")
    tuplet = next((name for name in TUPLETS if name in words), None)
    return tuplet or next((name for name in VALUES if re.search(rf"\b{name.split()[0]}", words)), None)
