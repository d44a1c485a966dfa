"""Which note values a stretch of time is printed as.

The rules are common practice: a value may not hide a strong beat. It may cross a beat when it
begins and ends on beats of that rank, or as the usual syncopation one rank lower (the half note on
beat 2 of 4/4, the quarter between two eighths). Rests stand in place: a rest begins on a multiple
of its own length, is dotted only where beats are, and crosses no beat of its rank.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate
from typing import TYPE_CHECKING

from lickwright.model.timeline.grouping import SHORTEST

if TYPE_CHECKING:
    from lickwright.theory.meter import Meter

_PLAIN = {Fraction(8) / 2**power: name for power, name in enumerate(
    ("breve", "1", "2", "4", "8", "16", "32", "64", "128", "256")
)}  # fmt: skip
PRINTED: dict[Fraction, tuple[str, int]] = {length: (name, 0) for length, name in _PLAIN.items()} | {
    length * Fraction(3, 2): (name, 1) for length, name in _PLAIN.items() if length > SHORTEST
}
"""Length in quarters -> MEI ``dur`` and number of dots."""
_GROUPS = {5: (3, 2), 7: (2, 2, 3)}
"""How the quarters of 5/4 and 7/4 are grouped (common practice)."""


@dataclass(frozen=True, slots=True)
class Rank:
    """A rank of beats: where they fall, and on which smaller step a syncopation may lean.

    Attributes:
        period: Distance in quarters; unused when ``places`` are given.
        lean: Both ends of a value that hides one beat must lie on multiples of this; None = never.
        places: Where the beats of an uneven bar begin.
    """

    period: Fraction
    lean: Fraction | None
    places: tuple[Fraction, ...] = ()

    def on(self, place: Fraction) -> bool:
        """Whether a beat of this rank falls there."""
        return place in self.places if self.places else place % self.period == 0

    def between(self, start: Fraction, end: Fraction) -> list[Fraction]:
        """The beats of this rank strictly inside."""
        if self.places:
            return [place for place in self.places if start < place < end]
        first = (start // self.period + 1) * self.period
        count = -((first - end) // self.period)
        return [first + i * self.period for i in range(int(count)) if first + i * self.period < end]


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """The ranks of beats of a bar or a tuplet, strongest first; there is one of each, kept by identity.

    Attributes:
        compound: True when beats are dotted.
        beat: Length of a beat, in quarters.
        free: True inside a tuplet, where any printable value will do.
    """

    ranks: tuple[Rank, ...]
    beat: Fraction
    compound: bool = False
    free: bool = False


def _halvings(unit: Fraction) -> list[Rank]:
    ranks = []
    while unit > SHORTEST:
        ranks.append(Rank(unit, unit / 2))
        unit /= 2
    return [*ranks, Rank(unit, None)]


@lru_cache(maxsize=256)
def grid_of(meter: Meter) -> Grid:
    """Return the ranks of a meter: bar halves, beats (5/4 and 7/4 in groups first), and finer."""
    part = Fraction(4, meter.unit)
    if meter.is_compound:
        ranks = [Rank(meter.beat, None), *_halvings(part)]
        if meter.beats % 4 == 0:
            ranks.insert(0, Rank(2 * meter.beat, meter.beat))
        return Grid(tuple(ranks), meter.beat, compound=True)
    if meter.unit >= 8 or meter.count in _GROUPS:
        sizes = meter.beat_groups if meter.unit >= 8 else [part * size for size in _GROUPS[meter.count]]
        places = tuple(accumulate(sizes, initial=Fraction(0)))
        lean = part if meter.unit < 8 else None
        return Grid((Rank(part, lean, places), *_halvings(part)), part if meter.unit < 8 else 2 * part)
    if meter.count % 4 == 0:
        return Grid((Rank(2 * part, part), *_halvings(part)), part)
    return Grid(tuple(_halvings(part)), part)


@lru_cache(maxsize=256)
def tuplet_grid(unit: Fraction) -> Grid:
    """Return the grid inside a tuplet whose members are printed ``unit`` quarters long.

    Members that are no plain value (five eighths parted among three are 5/4 long) are tied ones.
    """
    plain = _halvings(max((length for length in _PLAIN if length <= unit), default=SHORTEST))
    own = _halvings(unit) if unit in PRINTED and unit not in _PLAIN else []
    return Grid((*own, *plain), unit, free=True)


@lru_cache(maxsize=4096)
def split(grid: Grid, onset: Fraction, duration: Fraction, rest: bool = False) -> tuple[Fraction, ...]:
    """Return the printable lengths that make up a stretch, tied for a note.

    Args:
        grid: Of the bar, or of the innermost tuplet.
        onset: From the bar's (tuplet's) start, as printed.
        duration: More than 0, as printed; both it and the onset in 256ths, of which every
            stretch can be made up.
        rest: Whether it is silence.

    Returns:
        Lengths in quarters, each a key of :data:`PRINTED`; fewest first of all, then cut at the
        strongest beats.

    Raises:
        ValueError: When no sum of note values makes the stretch: a tuplet without its number. The
            timeline lets none through.
    """
    end = onset + duration
    rank_of: dict[Fraction, int] = {}
    finest = Fraction(1, max(onset.denominator, end.denominator))
    finest = min(finest, grid.beat / 3 if grid.compound else grid.ranks[0].period)
    for number, rank in enumerate(grid.ranks):
        if rank.places or rank.period >= finest:  # no cut is needed that is finer than both ends
            for place in rank.between(onset, end):
                rank_of.setdefault(place, number)
    places = [onset, *sorted(rank_of), end]
    best: dict[Fraction, tuple[int, int, tuple[Fraction, ...]]] = {onset: (0, 0, ())}
    for stop in places[1:]:
        for start in places:
            if start >= stop:
                break
            before = best.get(start)
            length = stop - start
            if before is None or length not in PRINTED or not _fits(grid, start, stop, rest):
                continue
            way = (before[0] + 1, before[1] + rank_of.get(stop, 0), (*before[2], length))
            if stop not in best or way[:2] < best[stop][:2]:
                best[stop] = way
    if end not in best:
        raise ValueError(f"no note values make {duration} quarters from {onset}")
    return best[end][2]


def _fits(grid: Grid, start: Fraction, end: Fraction, rest: bool) -> bool:
    if grid.free:
        return True
    if rest:
        return _rest_fits(grid, start, end)
    for rank in grid.ranks:
        inside = len(rank.between(start, end))
        if not inside:
            continue
        if rank.on(start) and rank.on(end):
            continue
        lean = rank.lean
        if lean is None or start % lean or end % lean:
            return False
        if inside > 1 and not (rank.on(start) or rank.on(end)):
            return False
    return True


def _rest_fits(grid: Grid, start: Fraction, end: Fraction) -> bool:
    length = end - start
    dotted = PRINTED[length][1] > 0
    if length > grid.beat or dotted:
        return (not dotted or grid.compound) and any(
            rank.period == length and not rank.places and rank.on(start) for rank in grid.ranks
        )
    if grid.compound:
        return (start % grid.beat) % length == 0 and start // grid.beat == (end - SHORTEST) // grid.beat
    return start % length == 0 and not any(rank.places and rank.between(start, end) for rank in grid.ranks)
