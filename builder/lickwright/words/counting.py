"""Where in the bar, and how long: beats and note values as players say them.

Conventions: places and lengths are fractions of a quarter, as written (swing is not counted in). A beat
is the meter's (the dotted quarter of 6/8); its parts are counted ``1 e and a`` where it parts in two,
``1 and a`` where it parts in three (common practice), any other place as a fraction of the beat.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.terms.lengths import LENGTHS

if TYPE_CHECKING:
    from lickwright.theory.meter import Meter

_IN_TWO = {Fraction(1, 4): "e", Fraction(1, 2): "and", Fraction(3, 4): "a"}
_IN_THREE = {Fraction(1, 3): "and", Fraction(2, 3): "a"}


def place(meter: Meter, onset: Fraction) -> str:
    """Return where a sound begins: ``Beat 1``, ``1 and``, ``2 plus 2/5``.

    Args:
        meter: Of the bar.
        onset: From the bar line of a whole bar.
    """
    beat, rest = divmod(onset, meter.beat)
    part = Fraction(rest) / meter.beat
    if not part:
        return f"Beat {beat + 1}"
    named = (_IN_THREE if meter.is_compound else _IN_TWO).get(part)
    return f"{beat + 1} {named or f'plus {part}'}"


def length(quarters: Fraction) -> str:
    """Return how long a sound is: ``dotted quarter``, ``5/2 quarters``, ``1/5 of a quarter``."""
    return LENGTHS.get(quarters) or f"{quarters} {'quarters' if quarters > 1 else 'of a quarter'}"


def lengths(quarters: Fraction) -> str:
    """Return the same of several: ``eighths``, ``dotted halves``, ``each 1/5 of a quarter``."""
    if quarters not in LENGTHS:
        return f"each {length(quarters)}"
    name = LENGTHS[quarters]
    return f"{name.removesuffix('half')}halves" if name.endswith("half") else f"{name}s"
