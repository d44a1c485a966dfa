"""What is counted in a lick: ``five notes``, ``three hammers``, ``four bars``."""

from __future__ import annotations

# unit | words, the plural understood
_TABLE = """
bar | bar, measure
note | note, sound, tone
beat | beat
string | string
hammer-on | hammer-on, hammer
pull-off | pull-off, pull
slide | slide
bend | bend, curl
double stop | double stop, double-stop, pair
grace note | grace note
chord | chord
quarter note | quarter note, quarter
eighth note | eighth note, eighth
sixteenth note | sixteenth note, sixteenth
half note | half note
"""


def _rows() -> dict[str, str]:
    units: dict[str, str] = {}
    for row in _TABLE.strip().splitlines():
        unit, words = row.split("|")
        units.update((word.strip(), unit.strip()) for word in words.split(","))
    return units


UNITS: dict[str, str] = _rows()
"""Words to the unit."""

UNIT = rf"(?:{'|'.join(sorted(UNITS, key=lambda w: (-len(w), w)))})s?(?![\w-])"
"""Pattern of a unit."""
ADJECTIVES = (
    r"(?:(?:even|equal|long|short|plain|little|small|slow|quick|fast|more|single|struck|picked|last|first|same)"
    r"[ -])"
)
"""Pattern of a word that may stand between the number and the unit."""
NO_DISTANCE = (
    r"(?! (?:later|earlier|before|after|ago|away|apart|back|further|higher|lower|up|down|above|below|over)\b"
    r"| on$)"
)
"""``five bars later`` counts no bars of what it speaks of."""


def read_unit(text: str) -> str | None:
    """Read a unit, singular or plural.

    >>> read_unit("bars"), read_unit("measure"), read_unit("hammers"), read_unit("boats")
    ('bar', 'bar', 'hammer-on', None)
    """
    word = text.casefold()
    return UNITS.get(word, UNITS.get(word.removesuffix("s")))
