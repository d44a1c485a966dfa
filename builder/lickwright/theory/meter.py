"""Meters: the length of the bar, its beats, their weight, the groups of beams.

Conventions: lengths and places are fractions of a quarter note from the bar line. The beat is the
quarter in x/4, the half in x/2, the dotted quarter where x/8 divides by 3 (the dotted eighth where
x/16 does), else the written unit. Weights: 4 the bar line, 3 the middle of the bar (beat 3 of 4/4),
2 the other beats, 1 the off-beat eighth (in compound and irregular bars: the other units), 0 finer
places. A bar in halves is weighed like the same music in quarters. Swing changes no weight.

References: metric weight in common practice; groups of 5/8 and 7/8 as usually beamed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

_IRREGULAR: dict[int, tuple[int, ...]] = {
    1: (1,),
    2: (2,),
    4: (2, 2),
    5: (3, 2),
    7: (2, 2, 3),
    8: (3, 3, 2),
    10: (3, 3, 2, 2),
    11: (3, 3, 3, 2),
    13: (3, 3, 3, 2, 2),
    14: (3, 3, 3, 3, 2),
    16: (4, 4, 4, 4),
}
"""Groups of eighths (sixteenths) where the count does not divide by three."""


@dataclass(frozen=True, slots=True)
class Meter:
    """A time signature.

    Attributes:
        count: The upper number, 1 to 16.
        unit: The lower number: 2, 4, 8 or 16.
    """

    count: int
    unit: int

    @property
    def length(self) -> Fraction:
        """Length of the bar."""
        return _quarters(4 * self.count, self.unit)

    @property
    def is_compound(self) -> bool:
        """Whether the beat is dotted: 6/8, 9/8, 12/8, 3/8, and the like in sixteenths."""
        return self.unit >= 8 and self.count % 3 == 0

    @property
    def beat(self) -> Fraction:
        """Length of the beat."""
        return _quarters(12 if self.is_compound else 4, self.unit)

    @property
    def beats(self) -> int:
        """Beats in the bar."""
        return self.count // 3 if self.is_compound else self.count

    @property
    def beat_groups(self) -> tuple[Fraction, ...]:
        """Lengths of the groups that beams keep to, in order; they add up to the bar."""
        return _groups(self)

    def weight(self, offset: Fraction) -> int:
        """Metric weight, 0 to 4, of a place in the bar.

        Args:
            offset: From the bar line; beyond the bar it is taken round.
        """
        return _weight(self, offset)

    def __str__(self) -> str:
        return f"{self.count}/{self.unit}"


@cache
def _quarters(number: int, unit: int) -> Fraction:
    """A fraction of a meter; remembered, for making fractions is slow."""
    return Fraction(number, unit)


@lru_cache(maxsize=128)
def _groups(meter: Meter) -> tuple[Fraction, ...]:
    if meter.is_compound or meter.unit < 8:
        return (meter.beat,) * meter.beats
    return tuple(Fraction(4 * count, meter.unit) for count in _IRREGULAR[meter.count])


@lru_cache(maxsize=4096)
def _weight(meter: Meter, offset: Fraction) -> int:
    place = offset % meter.length
    if place == 0:
        return 4
    if meter.beats % 2 == 0 and meter.length >= 4 and place * 2 == meter.length:
        return 3
    starts = {sum(meter.beat_groups[:number], Fraction(0)) for number in range(len(meter.beat_groups))}
    if place in starts or (meter.unit < 8 and place % 1 == 0):
        return 2
    finer = Fraction(1, 2) if meter.unit < 8 else Fraction(4, meter.unit)
    return 1 if place % finer == 0 else 0


_METER = re.compile(r"([1-9]|1[0-6])/(2|4|8|16)")


def parse_meter(text: str) -> Meter | None:
    """Read ``4/4``, ``6/8``: 1 to 16 over 2, 4, 8 or 16.

    Returns:
        The meter, or ``None`` when the text is none.
    """
    found = _METER.fullmatch(text)
    return Meter(int(found[1]), int(found[2])) if found else None
