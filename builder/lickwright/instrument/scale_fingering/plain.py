"""A scale in position: one finger a fret, the hand moved as little as can be.

Position P is the fret of the index finger; it covers P to P + 3, and by a stretch of the first or the
fourth finger one fret more on either side. Open strings serve where the hand is at the nut.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import reach
from lickwright.instrument.position import ABOVE, BELOW
from lickwright.instrument.scale_fingering.step import Place, Step

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lickwright.instrument.guitar import Guitar

_FINGERS = 4
_SHIFT, _FRET = 400, 60  # the hand moved; each fret of its way
_STRETCH = 90
_WIDE = 300  # two fingers further apart than is comfortable
_CROSSING = 15
_SKIP = 200  # a string left out
_BACK = 900  # against the way of the scale over the strings
_SLIDE = 500  # one finger after itself on a string
_HEIGHT = 4
_AT_NUT = 2  # highest position in which an open string goes unnoticed
_OPEN_ABOVE = 250


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    position: int
    string: int
    fret: int
    count: int = 0

    @property
    def finger(self) -> int:
        if self.fret == 0:
            return 0
        return min(max(self.fret - self.position + 1, 1), _FINGERS)

    @property
    def stretched(self) -> bool:
        return self.fret > 0 and not self.position <= self.fret < self.position + _FINGERS


def plain_path(
    midis: Sequence[int],
    guitar: Guitar,
    *,
    start: Place | None = None,
    stop: Place | None = None,
    position: int | None = None,
    notes_a_string: int | None = None,
) -> tuple[Step, ...] | None:
    """Finger a scale in position.

    Args:
        midis: Its notes, in order.
        guitar: The instrument.
        start: Where the first note must lie, or None.
        stop: The same of the last.
        position: The hand stays there; 0 is open position. None = where it lies best.
        notes_a_string: As many notes on each string, but for the first and the last one played.

    Returns:
        A step a note, or None when there is no way.
    """
    fixed = None if position is None else max(position, 1)
    ends = {0: start, len(midis) - 1: stop}
    layers: list[dict[_Node, tuple[int, _Node | None]]] = []
    for number, midi in enumerate(midis):
        layer: dict[_Node, tuple[int, _Node | None]] = {}
        for place in guitar.places(midi):
            if ends.get(number) not in (None, place):
                continue
            for node in _nodes(place, guitar, fixed):
                if number == 0:
                    first = _Node(node.position, node.string, node.fret, 1 if notes_a_string else 0)
                    layer[first] = (_own(first), None)
                    continue
                for before, (cost, _) in layers[-1].items():
                    move = _move(
                        before, node, guitar, rising=midi > midis[number - 1], a_string=notes_a_string
                    )
                    if move is None:
                        continue
                    after, price = move
                    total = cost + price + _own(after)
                    if after not in layer or (total, before) < _known(layer[after]):
                        layer[after] = (total, before)
        if not layer:
            return None
        layers.append(layer)
    return _walk(layers)


def _known(entry: tuple[int, _Node | None]) -> tuple[int, _Node]:
    cost, before = entry
    assert before is not None  # only the first layer has none
    return cost, before


def _walk(layers: list[dict[_Node, tuple[int, _Node | None]]]) -> tuple[Step, ...] | None:
    if not layers:
        return ()
    last = layers[-1]
    node: _Node | None = min(last, key=lambda end: (last[end][0], end))
    steps: list[Step] = []
    for layer in reversed(layers):
        assert node is not None  # every layer but the first has a node before
        steps.append(Step(node.string, node.fret, str(node.finger)))
        node = layer[node][1]
    return tuple(reversed(steps))


def _nodes(place: Place, guitar: Guitar, fixed: int | None) -> Iterator[_Node]:
    string, fret = place
    positions = range(1, guitar.highest_fret + 1) if fixed is None else (fixed,)
    for position in positions:
        if fret == 0 or position - BELOW <= fret <= position + ABOVE:
            yield _Node(position, string, fret)


def _own(node: _Node) -> int:
    cost = _HEIGHT * node.position + (_STRETCH if node.stretched else 0)
    return cost + (_OPEN_ABOVE if node.fret == 0 and node.position > _AT_NUT else 0)


def _move(
    before: _Node, node: _Node, guitar: Guitar, *, rising: bool, a_string: int | None
) -> tuple[_Node, int] | None:
    """Where a step leads and what it costs, the notes on the string counted; None when it cannot be taken."""
    crossed = before.string - node.string
    if a_string is not None:
        count = before.count + 1 if crossed == 0 else 1
        if count > a_string or (crossed and before.count < a_string):
            return None
        node = _Node(node.position, node.string, node.fret, count)
    way = abs(node.position - before.position)
    cost = _SHIFT + _FRET * way if way else 0
    if crossed:
        cost += _CROSSING + _SKIP * (abs(crossed) - 1)
        cost += 0 if (crossed > 0) == rising else _BACK
    if way and not crossed and before.finger == node.finger:
        cost += _SLIDE
    if not way and before.fret and node.fret:
        wide = _apart(before, node, guitar)
        if wide is None:
            return None
        cost += wide
    return node, cost


def _apart(before: _Node, node: _Node, guitar: Guitar) -> int | None:
    if before.finger == node.finger:
        return 0 if before.fret == node.fret else None  # one finger serves one fret in a position
    distance = span(before.fret, node.fret, guitar.scale_length, guitar.capo)
    limit = reach(before.finger, node.finger)
    if distance > limit.possible:
        return None
    return _WIDE if distance > limit.comfortable else 0
