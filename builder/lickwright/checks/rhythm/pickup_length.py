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
                f"the pickup is {written_length(abs(missing))} {'short' if missing > 0 else 'long'}:"
                f" {count_units(line.filled, bar.length)}",
                line.steps[-1][1] if line.steps else bar.span,
                Address(0, lower=line is bar.lower),
                help=f"Write pickup: {written_length(line.filled)}, or mend the bar" if line.filled else "",
            )


RULE = Rule(
    id="rhythm/pickup-length",
    title="A pickup of another length than stated",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Pickup: with `pickup:` the first line is bar 0"),
    good=(Example("pickup: 1/4\n\n| 5:2 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -"),),
    bad=(Example("pickup: 1/4\n\n| 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -", marks=("5:4",)),),
    run=run,
)
