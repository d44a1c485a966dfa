"""A pickup bar that is not as long as ``pickup`` says.

Why it matters: the count-in, the beams and the last bar all go by the length that is stated.

What to do: make the field and bar 0 agree.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.counting import count_units, written_length
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import Line
from lickwright.terms.lengths import say_length


def run(subject: Subject) -> Iterator[Finding]:
    """Add up the voices of bar 0."""
    bar = subject.piece.music.bar(0)
    if bar is None:
        return
    for line in bar.lines:
        missing = bar.length - line.filled
        if missing:
            yield subject.report(
                RULE,
                f"the pickup is {say_length(abs(missing))} too {'short' if missing > 0 else 'long'}:"
                f" {count_units(line.filled, bar.length)}",
                line.steps[-1][1] if line.steps else bar.span,
                Address(0, lower=line is bar.lower),
                help=_hint(subject, line) if line.filled else "",
            )


def _hint(subject: Subject, line: Line) -> str:
    """What to write; a closing bar that makes up for the pickup as it sounds speaks for it."""
    write = f"Write pickup: {written_length(line.filled)}"
    bars = subject.piece.music.bars
    for bar in bars[1:]:
        if (bar is bars[-1] or bar.closes) and bar.upper.filled == bar.meter.length - line.filled:
            return f"{write}: bar {bar.number} makes up for just that"
    return f"{write}, or mend the bar"


RULE = Rule(
    id="rhythm/pickup-length",
    title="A pickup of another length than stated",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Pickup: with `pickup:` the first line is bar 0"),
    good=(Example("pickup: 1/4\n\n| 5:2 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -"),),
    bad=(Example("pickup: 1/4\n\n| 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -", marks=("5:4",)),),
    run=run,
    stettable=False,
    no_stet="what the field says and the bar holds are both printed and counted",
)
