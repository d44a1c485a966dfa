"""A scale over open strings: wherever the scale has an open string it is played there, and left to ring.

No two neighbours lie on one string, so that every note sounds on under the next, but where there is no other
way (under the fifth string, say); what is fretted of any three notes in a row is held together by one hand.
The path keeps strings ringing longest, then moves the hand least.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import FINGERS, reach
from lickwright.instrument.scale_fingering.step import Place, Step

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lickwright.instrument.guitar import Guitar

OPEN = ("0",)
HELD = 3
"""So many notes in a row lie under the hand together."""
_FRETTED = 300  # a note that is fretted where no open string has it costs as much everywhere
_CUT = {1: 5000, 2: 160, 3: 60}
"""A string used again after so many notes."""
_WAY = 20  # a fret's way of the hand from what it held last
_LOW, _HEIGHT = 7, 30  # up to here the neck is low; each fret beyond
_TOP = 14  # beyond it nothing is looked for: open strings are far below
_WIDE = 250
_BARRED = 60
_AWKWARD = 15  # the hand moved to bring the finger there, a fret

_State = tuple[Step, ...]


def ringing_path(
    midis: Sequence[int],
    guitar: Guitar,
    *,
    start: Place | None = None,
    stop: Place | None = None,
    held: int = HELD,
) -> tuple[Step, ...] | None:
    """Finger a scale over open strings.

    Args:
        midis: Its notes, in order.
        guitar: The instrument.
        start: Where the first note must lie, or None.
        stop: The same of the last.
        held: So many notes in a row lie under the hand together, 2 or 3.

    Returns:
        A step a note, or None when there is no such way.
    """
    ends = {0: start, len(midis) - 1: stop}
    # the last steps and, for each, the cheapest way there: its cost and all its steps
    best: dict[_State, tuple[int, _State]] = {(): (0, ())}
    for number, midi in enumerate(midis):
        ahead: dict[_State, tuple[int, _State]] = {}
        for step in _steps(midi, guitar, ends.get(number)):
            for state, (cost, way) in best.items():
                price = step_cost(state, step, guitar, held)
                if price is None:
                    continue
                after = (*state, step)[-HELD:]
                made = (cost + price, (*way, step))
                if after not in ahead or made < ahead[after]:
                    ahead[after] = made
        if not ahead:
            return None
        best = ahead
    return min(best.values())[1]


def _steps(midi: int, guitar: Guitar, only: Place | None) -> Iterator[Step]:
    for string, fret in guitar.places(midi):
        if (string, fret) == only or (only is None and fret <= _TOP):
            for finger in FINGERS if fret else OPEN:
                yield Step(string, fret, finger)


def step_cost(before: _State, step: Step, guitar: Guitar, together: int = HELD) -> int | None:
    """Return what a note costs after those before it; None when it cannot be played so.

    Args:
        before: The last steps, at most :data:`HELD`.
        step: The note.
        guitar: The instrument.
        together: So many notes in a row lie under the hand together.
    """
    cost = next((_CUT[ago] for ago, old in enumerate(reversed(before), 1) if old.string == step.string), 0)
    if not step.fret:
        return cost
    cost += _FRETTED + _HEIGHT * max(0, step.fret - _LOW)
    last = next((old for old in reversed(before) if old.fret), None)
    if last is not None:
        cost += _WAY * abs(step.fret - last.fret)
        cost += _AWKWARD * abs((step.fret - int(step.finger)) - (last.fret - int(last.finger)))
    for old in before[-(together - 1) :]:
        if old.fret and old.string != step.string:
            price = _held_cost(old, step, guitar.scale_length, guitar.capo)
            if price is None:
                return None
            cost += price
    return cost


@lru_cache(maxsize=4096)
def _held_cost(old: Step, new: Step, scale_length: float, capo: int) -> int | None:
    """What it costs to hold two notes at once: fingers in the order of their frets, within reach."""
    one, other = int(old.finger), int(new.finger)
    if old.fret == new.fret:
        return _BARRED if one == other else _AWKWARD if (one < other) == (old.string < new.string) else 0
    if one == other or (old.fret < new.fret) != (one < other):
        return None
    distance, limit = span(old.fret, new.fret, scale_length, capo), reach(one, other)
    if distance > limit.possible:
        return None
    return _WIDE if distance > limit.comfortable else 0
