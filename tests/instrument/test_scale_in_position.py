"""A scale in position: of all ways to play a few notes the cheapest, and no other costs less."""

from __future__ import annotations

from itertools import pairwise, product

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.scale_fingering import plain
from lickwright.instrument.scale_fingering.plain import plain_path
from lickwright.instrument.scale_fingering.step import Step, pitches_between
from lickwright.theory.scale import parse_scale

GUITAR = Guitar(frets=9)

Way = tuple[plain._Node, ...]


def every_way(midis: tuple[int, ...], position: int | None) -> list[Way]:
    """Every choice of place and position for each note."""
    choices = [
        [node for place in GUITAR.places(midi) for node in plain._nodes(place, GUITAR, position)]
        for midi in midis
    ]
    return list(product(*choices))


def cost(way: Way, midis: tuple[int, ...]) -> int | None:
    """What a whole way costs; None where a hand cannot go it."""
    total = sum(map(plain._own, way))
    for (before, node), (low, high) in zip(pairwise(way), pairwise(midis), strict=True):
        move = plain._move(before, node, GUITAR, rising=high > low, a_string=None)
        if move is None:
            return None
        total += move[1]
    return total


def steps_of(way: Way) -> tuple[Step, ...]:
    return tuple(Step(node.string, node.fret, str(node.finger)) for node in way)


@pytest.mark.parametrize("position", [None, 5])
@pytest.mark.parametrize("falls", [False, True])
@pytest.mark.parametrize(("name", "low"), [("A major", 57), ("G minor pentatonic", 55), ("E dorian", 52)])
def test_no_way_is_cheaper(name: str, low: int, falls: bool, position: int | None) -> None:
    """All ways of the first notes are tried; the path has the least cost of them."""
    scale = parse_scale(name)
    midis = pitches_between(scale.semitones, low, low + 12)[: 4 if position is None else 6]
    midis = midis[::-1] if falls else midis
    costs = {way: found for way in every_way(midis, position) if (found := cost(way, midis)) is not None}
    steps = plain_path(midis, GUITAR, position=position)
    least = min(costs.values())
    assert min(found for way, found in costs.items() if steps_of(way) == steps) == least
    dearest = max(costs, key=costs.get)
    assert costs[dearest] > least
    assert steps_of(dearest) != steps  # a planted detour is no cheapest way
