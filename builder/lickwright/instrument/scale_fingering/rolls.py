"""The picking hand of a scale that rings: pick and two fingers, and the rolls they make.

A roll is three notes or more, each on the next used string one way: *forward* toward the first string,
*backward* toward the bass (common practice, from the five-string banjo).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

HAND = ("P", "m", "a")
"""Pick, middle finger, ring finger, from the bass up."""
SHORTEST = 3
_AGAIN, _CROSSED, _FAR = 100, 40, 5


@dataclass(frozen=True, slots=True)
class Roll:
    """Notes ``first`` to ``last`` (from 0) that roll one way."""

    first: int
    last: int
    way: Literal["forward", "backward"]


def rolls(strings: Sequence[int]) -> tuple[Roll, ...]:
    """Return the rolls of a line, longest stretches one way; neighbours share their turning note.

    >>> [(roll.first, roll.last, roll.way) for roll in rolls([4, 3, 2, 3, 1])]
    [(0, 2, 'forward')]
    """
    found: list[Roll] = []
    first = 0
    for number in range(1, len(strings) + 1):
        way = _way(strings, first)
        if number < len(strings) and _way(strings, number - 1) == way and way:
            continue
        if way and number - first >= SHORTEST:
            found.append(Roll(first, number - 1, "forward" if way > 0 else "backward"))
        first = number - 1
    return tuple(found)


def _way(strings: Sequence[int], number: int) -> int:
    if number + 1 >= len(strings):
        return 0
    return (strings[number] > strings[number + 1]) - (strings[number] < strings[number + 1])


def picking_hand(strings: Sequence[int]) -> tuple[str, ...]:
    """Return who plays each note: no one twice running, higher strings for higher fingers.

    Args:
        strings: Of the notes in order, no two neighbours alike.
    """
    best: list[tuple[int, tuple[int, ...]]] = [(_FAR * k, (k,)) for k in range(len(HAND))] if strings else []
    for before, string in pairwise(strings):
        best = [
            min(
                (cost + _hand(way[-1], k, before - string), (*way, k)) for cost, way in best
            )
            for k in range(len(HAND))
        ]  # fmt: skip
    return tuple(HAND[k] for k in min(best)[1]) if best else ()


def _hand(before: int, finger: int, toward_first: int) -> int:
    if before == finger:
        return _AGAIN
    return 0 if (finger > before) == (toward_first > 0) else _CROSSED
