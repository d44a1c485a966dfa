"""A plain fingering for a line of single notes: which string, which fret.

The line is a layered graph: a layer a note, a node each string, fret and position of the index
finger that plays it; the cheapest path moves the hand least, stays low and on near strings. It is
meant for putting foreign melodies on the neck, not for judging an author's own fingering.

Conventions: pitches are sounding MIDI numbers, frets count from the capo. Position P covers frets
P to P + 3; open strings belong to every position. Costs are in hundredths of a fret of hand
movement.

References: fingering as a shortest path after Sayegh (1989, from memory) and Radicioni and
Lombardo; the weights are our own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.instrument.guitar import Guitar

_FINGERS = 4
_FRET = 100  # the hand moved by a fret; whole numbers, so that equal costs are equal
_SHIFT = 200  # a hand movement as such, besides its way
_HEIGHT = 15  # a note, for each fret up the neck
_CROSSING = 10  # a string crossed


@dataclass(frozen=True, slots=True)
class _Node:
    string: int
    fret: int
    position: int


def place(midi: int, guitar: Guitar, near: int = 1) -> tuple[tuple[int, int], ...]:
    """Every place of a pitch on the neck.

    Args:
        midi: Sounding pitch.
        guitar: The instrument.
        near: Position of the index finger, a fret; places in it come first, then the nearest.

    Returns:
        Pairs of string and fret, best first; empty when the pitch is out of range.
    """

    def distance(place: tuple[int, int]) -> tuple[int, int]:
        fret = place[1]
        outside = 0 if fret == 0 else max(near - fret, fret - (near + _FINGERS - 1), 0)
        return outside, fret

    return tuple(sorted(guitar.places(midi), key=distance))


def _layer(midi: int, guitar: Guitar, positions: range) -> list[_Node]:
    return [
        _Node(string, fret, position)
        for string, fret in place(midi, guitar)
        for position in positions
        if fret == 0 or position <= fret < position + _FINGERS
    ]


def _move(before: _Node, after: _Node) -> int:
    way = abs(after.position - before.position)
    return (_FRET * way + _SHIFT if way else 0) + _CROSSING * abs(after.string - before.string)


def fingering_path(
    midis: Sequence[int], guitar: Guitar, lowest: int = 1, highest: int | None = None
) -> tuple[tuple[int, int], ...] | None:
    """The cheapest path of a line along the neck; first position wherever the range allows.

    Args:
        midis: Sounding pitches, one at a time, in order.
        guitar: The instrument.
        lowest: Lowest position of the index finger, a fret.
        highest: Highest position, or ``None`` for the whole neck.

    Returns:
        A string and a fret for each pitch, or ``None`` when one of them is out of range. Equally
        cheap paths are told apart by string and fret, so the answer is always the same.
    """
    top = guitar.highest_fret if highest is None else highest
    positions = range(lowest, max(lowest, top) + 1)
    if not midis:
        return ()
    # for each node: cost of the cheapest way there, and the node before it
    layers: list[dict[_Node, tuple[int, _Node | None]]] = []
    for midi in midis:
        nodes = _layer(midi, guitar, positions)
        if not nodes:
            return None
        layer: dict[_Node, tuple[int, _Node | None]] = {}
        for node in nodes:
            height = _HEIGHT * node.position
            if layers:
                cost, before = min(
                    ((cost + _move(earlier, node), earlier) for earlier, (cost, _) in layers[-1].items()),
                    key=lambda way: (way[0], way[1].position, way[1].string),
                )
                layer[node] = (cost + height, before)
            else:
                layer[node] = (height, None)
        layers.append(layer)
    step: _Node | None = min(layers[-1], key=lambda last: (layers[-1][last][0], last.position, last.string))
    path: list[tuple[int, int]] = []
    for layer in reversed(layers):
        assert step is not None  # every layer but the first has a node before
        path.append((step.string, step.fret))
        step = layer[step][1]
    return tuple(reversed(path))
