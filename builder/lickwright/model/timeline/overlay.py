"""What each bar of a lick is played over: its margins, a progression, or chords one a bar.

Conventions: ``over`` runs along the bars as played; a pickup uses up none of it
and stands over the chord of bar 1. A progression starts again when it is used up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from lickwright.findings import Label
from lickwright.model.address import Address
from lickwright.model.blocks import Lick
from lickwright.model.fields import Over
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.harmony import (
    Chords,
    Grid,
    GridBar,
    carried,
    disagreement,
    place_chords,
)
from lickwright.model.timeline.wording import NO_NAMES, Names, counted, say_range
from lickwright.text import Span
from lickwright.theory.chord import ChordSymbol
from lickwright.theory.meter import Meter


def grid_of(
    over: Over | None, grids: Mapping[str, Grid], faults: Faults, names: Names = NO_NAMES
) -> Grid | None:
    """The progression a lick is over, cut to the bars it names; None without one."""
    if over is None or not over.progression:
        return None
    grid = grids.get(over.progression)
    if grid is None:
        message, hint = names.missing(over.progression, "progression")
        listed = ", ".join(sorted(grids)) or "none yet"
        faults.add(
            "course/unknown-progression",
            message,
            over.span,
            help=hint or f"Progressions of the course: {listed}",
        )
        return None
    if over.bars is None:
        return grid
    first, last = over.bars.first.bar, over.bars.last.bar
    kept = [i for i, number in enumerate(grid.written) if first <= number <= last]
    if not kept or last > max(grid.written) or first < 1:
        faults.add(
            "course/progression-bars",
            f"“{grid.name}” has {counted(max(grid.written, default=0), 'bar')}, "
            f"and none that would be {say_range(over.bars)}",
            over.span,
        )
        return grid
    return replace(
        grid,
        bars=tuple(grid.bars[i] for i in kept),
        written=tuple(grid.written[i] for i in kept),
    )


def chords_of_bars(
    lick: Lick,
    grid: Grid | None,
    order: Sequence[int],
    meters: Sequence[Meter],
    offsets: Sequence[Fraction],
    lengths: Sequence[Fraction],
    faults: Faults,
) -> list[Chords]:
    """Return the chords of each bar as written, carried chords at the bar's start included."""
    margins = [
        place_chords(bar.margin.chords, meters[i], offsets[i], lengths[i]) for i, bar in enumerate(lick.bars)
    ]
    pickup = 1 if lick.pickup and len(lick.bars) > 1 else 0
    over = _over(lick, grid, order, pickup, faults)
    if over is None:
        return _from_margins(lick, margins, pickup, faults)
    chords = [_agreed(lick, i, margins[i], over.get(i), lengths[i], faults) for i in range(len(margins))]
    if pickup and not margins[0]:
        chords[0] = carried((), chords[1][0].symbol if chords[1] else None, lick.bars[0].span)
    return chords


def _from_margins(lick: Lick, margins: list[Chords], pickup: int, faults: Faults) -> list[Chords]:
    last: ChordSymbol | None = None
    if pickup and not margins[0] and margins[1]:
        last = margins[1][0].symbol
    chords = []
    for i, margin in enumerate(margins):
        if last is None and not margin:
            faults.add(
                "harmony/no-chord-stated",
                "no chord is in force here",
                lick.bars[i].margin.span,
                help="Write the chord before the |, or N.C.",
            )
        chords.append(carried(margin, last, lick.bars[i].span))
        last = chords[-1][-1].symbol
    return chords


def _over(
    lick: Lick, grid: Grid | None, order: Sequence[int], pickup: int, faults: Faults
) -> dict[int, GridBar] | None:
    """The chords the bars meet, by index of the bar; None when the lick is over nothing."""
    over = lick.over
    if over is None or (grid is None and not over.chords):
        return None
    played = [index for index in order if index >= pickup]
    if grid is not None:
        bars = list(grid.bars)
        ends = over.bars is not None and over.bars.last.bar == max(grid.written, default=0)
        if over.bars is not None and ends and len(played) != len(bars):
            theirs = f"{say_range(over.bars)} of “{over.progression}”"
            verb = "is" if over.bars.first == over.bars.last else "are"
            faults.add(
                "rhythm/over-length",
                f"the lick is {counted(len(played), 'bar')} as played, {theirs} {verb} {len(bars)}",
                over.span,
                help="Name as many bars as the lick has",
            )
    else:
        meter = lick.meter or Meter(4, 4)
        bars = [
            GridBar(meter, place_chords((chord,), meter, Fraction(0), meter.length)) for chord in over.chords
        ]
        if len(bars) not in (1, len(played)):
            faults.add(
                "rhythm/over-count",
                f"{counted(len(bars), 'chord')} for {counted(len(played), 'bar')} as played",
                over.span,
                help="One chord for each bar as played, or one alone for all",
            )
    if not bars:
        return None
    met: dict[int, GridBar] = {}
    for place, index in enumerate(played):
        bar = bars[place % len(bars)]
        known = met.setdefault(index, bar)
        if [(c.onset, c.symbol) for c in known.chords] != [(c.onset, c.symbol) for c in bar.chords]:
            faults.add(
                "harmony/over-repeat",
                f"bar {index + 1 - pickup} is repeated over two different chords, "
                f"{known.chords[0].symbol.symbol} and {bar.chords[0].symbol.symbol}",
                lick.bars[index].span,
                help="Write the repeat out",
                address=Address(index + 1 - pickup),
            )
    return met


def _agreed(
    lick: Lick, index: int, margin: Chords, over: GridBar | None, length: Fraction, faults: Faults
) -> Chords:
    """The bar's chords: its margin's where it has one that agrees, else those it is over."""
    if over is None:
        return carried(margin, None, lick.bars[index].span)
    theirs = tuple(
        replace(chord, span=lick.bars[index].span) for chord in over.chords if chord.onset < length
    )
    for chord in margin:
        other = next(c for c in reversed(theirs) if c.onset <= chord.onset)
        rule = disagreement(chord.symbol, other.symbol)
        if rule:
            _report(rule, chord.symbol, other.symbol, chord.span, lick, index, faults)
    if not margin:
        return theirs
    return carried(margin, theirs[0].symbol, lick.bars[index].span)


def _report(
    rule: str,
    ours: ChordSymbol,
    theirs: ChordSymbol,
    span: Span,
    lick: Lick,
    index: int,
    faults: Faults,
) -> None:
    over = lick.over
    assert over is not None
    if over.progression:
        message = f"the margin says {ours.symbol}, “{over.progression}” has {theirs.symbol} here"
        label = f"played over “{over.progression}”"
    else:
        message = f"the margin says {ours.symbol}, and the chord given in the field over is {theirs.symbol}"
        label = "the chords it is played over"
    faults.add(
        rule,
        message,
        span,
        labels=(Label(over.span, label),),
        help=f"Write {theirs.symbol}, or leave the margin empty",
        address=Address(index + (0 if lick.pickup else 1)),
    )
