"""Which notes share a beam, by groups of beats (common practice).

Eighths alone are beamed by half bars in 4/4 and 2/2 and by the whole bar in 3/4, all else by
beats; a rest ends a beam; a tuplet is beamed by itself.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import Bracketed, Layer, Part, Piece

if TYPE_CHECKING:
    from collections.abc import Callable

    from lickwright.theory.meter import Meter

_EIGHTH = Fraction(1, 2)


def windows(layer: Layer) -> Callable[[Fraction], Fraction]:
    """Return the function from an onset to the start of its beam group."""
    meter = layer.bar.meter
    edges = list(accumulate(meter.beat_groups, initial=Fraction(0)))
    merged = _merged(meter, edges)
    starts = [edge - layer.bar.offset for edge in edges]
    for first, last in merged:
        inside = [p for p in layer.pieces if first <= p.onset + layer.bar.offset < last]
        even = all(p.sound is not None and p.length == _EIGHTH for p in inside)
        if even and not any(_overlaps(part, first, last, layer.bar.offset) for part in layer.parts):
            starts = [start for start in starts if not first < start + layer.bar.offset < last]
        elif meter.unit == 2:
            starts += [first + 1 - layer.bar.offset]
    starts.sort()
    return lambda onset: max((start for start in starts if start <= onset), default=Fraction(-1))


def _merged(meter: Meter, edges: list[Fraction]) -> list[tuple[Fraction, Fraction]]:
    if meter.unit == 2:
        return list(pairwise(edges))
    if meter.unit == 4 and meter.count % 4 == 0:
        return list(pairwise(edges[::2]))
    if meter.unit == 4 and meter.count == 3:
        return [(edges[0], edges[3])]
    return []


def _overlaps(part: Part, first: Fraction, last: Fraction, shift: Fraction) -> bool:
    while isinstance(part, Bracketed):
        part = part.members[0]
        if isinstance(part, Piece):
            return first <= part.onset + shift < last
    return False
