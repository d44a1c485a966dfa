"""Where the lines of a score begin: computed from how much room each bar wants.

In the wide engraving a line holds two or four bars where they fit, and the last bar is not left
alone; in the narrow one it holds one bar, or two sparse ones. A pickup shares the line of the bar
it leads to, and no line ends inside a beat.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import TYPE_CHECKING

from lickwright.engraving.accidentals import bend_grace

if TYPE_CHECKING:
    from lickwright.analysis.notation.pieces import Layer
    from lickwright.engraving.score import Score
    from lickwright.model.music import MusicBar
    from lickwright.model.orders import Width

_BAR, _MOMENT, _TIME, _QUARTER, _GRACE, _SMALL = 770.0, 172.0, 246.0, 158.0, 263.0, 116.0
"""What Verovio's spacing gives a bar, each moment, its length to the power 0.6 and plainly, each grace
note, each small note before a bend, in units: fitted to its own widths of the bars in the tests."""
_CLEF, _ACCIDENTAL, _METER, _REPEAT = 620.0, 200.0, 310.0, 450.0


@dataclass(frozen=True, slots=True)
class _Line:
    """What a line of a width offers.

    Attributes:
        room: In units.
        squeezed: How much more than it has a line of several bars may be asked to hold.
        most: Bars in a line.
        counts: What a line of so many bars costs, in lines; any other number 3.
    """

    room: float
    squeezed: float
    most: int
    counts: dict[int, float]


_LINES: dict[Width, _Line] = {
    "wide": _Line(16080, 1.0, 8, {1: 1.5, 2: 1.0, 3: 2.0, 4: 1.0}),
    "narrow": _Line(6200, 1.0, 2, {1: 1.0, 2: 1.0}),
}
_LAST_ALONE, _OTHER = 3.0, 3.0
_TOO_FULL = 1000.0
"""A bar in a line without room: only where a beat would be cut in two otherwise."""
_SPARSE = 4
"""Moments of a bar that may share a narrow line with another."""


def line_starts(score: Score, width: Width) -> frozenset[int]:
    """Return the indexes of the bars with which a line begins, the first line's left out."""
    bars = score.music.bars
    line = _LINES[width]
    wants = [_wanted(bar, layers) for bar, layers in zip(bars, score.layers, strict=True)]
    moments = [len(_moments(layers)) for layers in score.layers]
    pickup = len(bars) > 1 and bars[0].length < bars[0].meter.length
    head = _CLEF + _ACCIDENTAL * abs(score.music.key.signature)
    best: list[tuple[float, int]] = [(0.0, 0)]
    for stop in range(1, len(bars) + 1):
        if stop < len(bars) and _inside_a_beat(bars[stop - 1]):
            best.append((inf, stop - 1))  # no line ends here, however full it grows
            continue
        ways = []
        for start in range(stop - 1, max(-1, stop - 2 - line.most), -1):
            own = range(start + (pickup and start == 0), stop)
            if (stop < len(bars) and not own) or (start and pickup and start == 1):
                continue
            room = line.room - head - (_METER if start == 0 else 0)
            asked = sum(wants[start:stop])
            cost = line.counts.get(len(own), _OTHER) + max(0.0, 1 - asked / room) ** 2
            if len(own) > 1 and (asked > room * line.squeezed or len(own) > line.most):
                cost += _TOO_FULL * len(own)
            if width == "narrow" and len(own) > 1 and max(moments[i] for i in own) > _SPARSE:
                cost += _TOO_FULL * len(own)
            if stop == len(bars) and len(own) == 1 and start and width == "wide":
                cost += _LAST_ALONE
            ways.append((best[start][0] + cost, start))
        best.append(min(ways, default=(best[stop - 1][0] + _OTHER, stop - 1)))
    return frozenset(_walk(best))


def _walk(best: list[tuple[float, int]]) -> list[int]:
    starts = []
    at = best[-1][1]
    while at > 0:
        starts.append(at)
        at = best[at][1]
    return starts


def _inside_a_beat(bar: MusicBar) -> bool:
    """Whether a bar ends inside a beat; one that closes a repeat has its pickup elsewhere."""
    return not bar.closes and (bar.offset + bar.length) % bar.meter.beat != 0


def _moments(layers: tuple[Layer, ...]) -> list[float]:
    return sorted({float(piece.onset) for layer in layers for piece in layer.pieces})


def _wanted(bar: MusicBar, layers: tuple[Layer, ...]) -> float:
    """The room a bar wants, in units."""
    moments = _moments(layers)
    pieces = [piece for layer in layers for piece in layer.pieces]
    times = [end - start for start, end in pairwise((*moments, max(float(bar.length), *moments)))]
    graces = sum(len(piece.sound.grace) for piece in pieces if piece.sound and piece.first)
    small = sum(any(bend_grace(head) for head in piece.heads) for piece in pieces)
    wanted = (
        _BAR + _MOMENT * len(times) + _QUARTER * sum(times) + _TIME * sum(float(time**0.6) for time in times)
    )
    return wanted + _GRACE * graces + _SMALL * small + (_REPEAT if bar.opens else 0)
