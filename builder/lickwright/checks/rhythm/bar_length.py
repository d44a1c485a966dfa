"""A bar whose slots do not add up to its meter.

Each voice of a bar is added up by itself. A pickup has a rule of its own; the last bar, or the bar that
closes a repeat, may be short by exactly the pickup.

Why it matters: everything after the slip comes early or late, on paper, in the sound and under the hands.

What to do: count the slots aloud with the beats. Most often a hold (``-``) or a rest is missing, or one
is too many.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.counting import count_units, place_in_bar, written_length
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import Line, MusicBar
from lickwright.text import Span


def run(subject: Subject) -> Iterator[Finding]:
    """Add up every voice of every bar but the pickup."""
    for bar in subject.piece.music.bars:
        if bar.number == 0:
            continue
        for line in bar.lines:
            if line.filled != bar.length:
                yield _finding(subject, bar, line)


def _finding(subject: Subject, bar: MusicBar, line: Line) -> Finding:
    lower = line is bar.lower
    what = f"the lower voice of bar {bar.number}" if lower else f"bar {bar.number}"
    missing = bar.length - line.filled
    short = missing > 0
    edge = "it stops before" if short else "it is full before"
    where = place_in_bar(bar, line.filled if short else bar.length)
    return subject.report(
        RULE,
        f"{what} is {written_length(abs(missing))} {'short' if short else 'long'}:"
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
)
