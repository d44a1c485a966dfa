"""A bar whose slots do not add up to its meter.

Each voice of a bar is added up by itself. A pickup has a rule of its own; the last bar, or the bar that
closes a repeat, may be short by exactly the pickup.

Why it matters: everything after the slip comes early or late, on paper, in the sound and under the hands.

What to do: count the slots aloud with the beats. Most often a hold (``-``) or a rest is missing, or one
is too many.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import zip_longest

from lickwright.checks.counting import count_units, place_in_bar
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import Line, MusicBar
from lickwright.terms.lengths import say_length
from lickwright.text import Span


def run(subject: Subject) -> Iterator[Finding]:
    """Add up every voice of every bar but the pickup."""
    bars = subject.piece.music.bars
    pickup = bars[0].upper.filled if bars and bars[0].number == 0 else Fraction(0)
    for bar, after in zip_longest(bars, bars[1:]):
        if bar.number == 0:
            continue
        last = after is None or bool(after.mark)
        for line in bar.lines:
            if line.filled != bar.length and not _makes_up(bar, line, pickup, last=last):
                yield _finding(subject, bar, line)


def _makes_up(bar: MusicBar, line: Line, pickup: Fraction, *, last: bool) -> bool:
    """Whether a bar that closes the lick or a repeat goes with the pickup as it sounds, however stated."""
    return pickup > 0 and (last or bar.closes) and line.filled == bar.meter.length - pickup


def _finding(subject: Subject, bar: MusicBar, line: Line) -> Finding:
    lower = line is bar.lower
    what = f"the lower voice of bar {bar.number}" if lower else f"bar {bar.number}"
    missing = bar.length - line.filled
    short = missing > 0
    edge = "it stops before" if short else "it is full before"
    where = place_in_bar(bar, line.filled if short else bar.length)
    return subject.report(
        RULE,
        f"{what} is {say_length(abs(missing))} too {'short' if short else 'long'}:"
        f" {count_units(line.filled, bar.length)}; {edge} {where}",
        _span(bar, line),
        Address(bar.number, lower=lower),
        help="Lengthen a sound with - or add a rest" if short else "Take out what is too much",
    )


def _span(bar: MusicBar, line: Line) -> Span:
    """What is too much; or, in a short bar, the last slot."""
    if not line.steps:
        return bar.span
    over = [span for onset, span in line.steps if onset >= bar.length]
    last = line.steps[-1][1]
    return over[0].to(last) if over else last


RULE = Rule(
    id="rhythm/bar-length",
    title="A bar that does not add up",
    severity=Severity.ERROR,
    source=Source("common practice", "Rudiments: the values of a bar add up to its meter"),
    good=(
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),
        Example("meter: 3/4\n\nD | 4:0 - 3:2 - 2:3 -"),
        Example("pickup: 1/8\n\n| 4:2\nA | 5:0 - 5:4 - 4:2 - 5:4 -\nA | 5:0 - 5:4 - 4:2 - 5:0"),
    ),
    bad=(
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2", marks=("4:2",)),
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4 5:0 -", marks=("5:0 -",)),
        Example("A | 1:5 - - -  2:5 - - -\n  low | 5:0 - - -  5:0 - -", marks=("-",)),
    ),
    run=run,
    stettable=False,
    no_stet="a bar that does not add up cannot be counted; where another length is meant, the margin states"
    " another meter",
)
