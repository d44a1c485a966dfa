"""Where the hand stands: the fret of the index finger, and its way along the neck.

Conventions: a position is the fret, counted from the capo, that the index finger would hold; 1 is the
lowest, 0 means open position, where the index finger stands at fret 1. One finger serves a fret, and each
reaches one fret aside: position P covers frets P - 1 to P + 4. Times are seconds, lengths millimetres.

References: position playing in common practice. The way of the hand as a shortest path after Sayegh (1989,
from memory) and Radicioni and Lombardo; that only moves above a comfortable speed cost anything is our own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

BELOW, ABOVE = 1, 4
"""Frets that a position covers below and above its own."""

STRETCH = 1
"""Frets that a finger reaches aside of its own."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The positions from which something can be held; ``lowest`` to ``highest``, both at least 1."""

    lowest: int
    highest: int

    def nearest(self, position: int) -> int:
        """The position of these that is next to another one."""
        return min(max(position, self.lowest), self.highest)


def covers(position: int, fret: int) -> bool:
    """Whether a fret, above the nut, is played in a position; 0 is open position."""
    index = max(position, 1)
    return index - BELOW <= fret <= index + ABOVE


def standing(fret: int, finger: int | None = None) -> Standing:
    """From where a fret can be held.

    Args:
        fret: At least 1.
        finger: 1 to 4 where it is known.
    """
    if finger is None:
        return Standing(max(fret - ABOVE, 1), fret + BELOW)
    index = fret - finger + 1
    return Standing(max(index - STRETCH, 1), max(index + STRETCH, 1))


def together(several: Sequence[Standing]) -> Standing:
    """From where all of several notes can be held; where nothing serves them all, the middle of them."""
    lowest = max(one.lowest for one in several)
    highest = min(one.highest for one in several)
    if lowest <= highest:
        return Standing(lowest, highest)
    middle = (lowest + highest) // 2
    return Standing(middle, middle)


def least_moved(way: Sequence[Standing]) -> tuple[int, ...]:
    """The path of the index finger that goes the fewest frets in all, and moves as late as it can.

    Args:
        way: From where each moment can be played, in order.

    Returns:
        A position for each.
    """
    if not way:
        return ()
    runs: list[tuple[int, Standing]] = []  # how many moments, and from where all of them can be played
    count, common = 0, way[0]
    for one in way:
        lowest, highest = max(common.lowest, one.lowest), min(common.highest, one.highest)
        if lowest <= highest:
            count, common = count + 1, Standing(lowest, highest)
            continue
        runs.append((count, common))
        near = one.lowest if one.lowest > common.highest else one.highest
        count, common = 1, Standing(near, near)
    runs.append((count, common))
    positions: list[int] = []
    for index, (count, common) in enumerate(runs):
        if index:
            place = common.lowest
        elif len(runs) > 1:
            place = common.nearest(runs[1][1].lowest)
        else:
            place = common.lowest
        positions += [place] * count
    return tuple(positions)


def calmest(way: Sequence[Standing], excess: Callable[[int, int, int], float]) -> tuple[int, ...]:
    """The path of the index finger with the least haste in all.

    Args:
        way: From where each moment can be played, in order.
        excess: Of the move to moment N, from one position to another: how much it is too fast, 0 for
            a move at ease. Called as ``excess(N, from, to)``.

    Returns:
        A position for each; of equally calm paths the one that moves less, then the lower.
    """
    if not way:
        return ()
    layers: list[dict[int, tuple[float, int, int]]] = [  # haste, frets gone, position before
        {position: (0.0, 0, position) for position in _positions(way[0])}
    ]
    for number, one in enumerate(way[1:], 1):
        before = layers[-1]
        layers.append(
            {
                to: min(
                    (haste + excess(number, start, to), gone + abs(to - start), start)
                    for start, (haste, gone, _) in before.items()
                )
                for to in _positions(one)
            }
        )
    last = layers[-1]
    place = min(last, key=lambda position: (*last[position][:2], position))
    path = [place]
    for layer in reversed(layers[1:]):
        place = layer[place][2]
        path.append(place)
    return tuple(reversed(path))


def _positions(one: Standing) -> range:
    return range(one.lowest, one.highest + 1)


def moves(path: Sequence[int]) -> int:
    """How many frets a path goes in all."""
    return sum(abs(after - before) for before, after in pairwise(path))


def fitting(frets: Sequence[int], near: int = 1) -> int | None:
    """The position that most of some frets are played in.

    Args:
        frets: Frets above the nut; repeated ones count as often as they come.
        near: Of positions that serve as well, the one next to this is taken.

    Returns:
        The fret of the index finger, 1 or more; ``None`` when there are no frets.
    """
    if not frets:
        return None

    def fitness(position: int) -> tuple[int, int, int]:
        covered = sum(covers(position, fret) for fret in frets)
        at_ease = sum(position <= fret < position + ABOVE for fret in frets)
        return covered, at_ease, -abs(position - near)

    return max(range(1, max(frets) + 1), key=lambda position: (*fitness(position), -position))
