"""A pickup that the field ``pickup`` does not announce.

The first bar states no chord and is at most half full, and the other bars are whole (the last may leave
out what the first one holds).

Why it matters: without the field the pickup is counted as bar 1, and every chord, address and word after it
is a bar off.

What to do: write the field.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.counting import written_length
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.terms.lengths import say_length


def run(survey: Survey) -> Iterator[Finding]:
    """Look at the first bar of every lick without a pickup."""
    for name, lick in survey.course.licks.items():
        subject = survey.subject(name)
        if subject is None or lick.pickup is not None or len(lick.bars) < 2 or lick.bars[0].margin.chords:
            continue
        first, *others = subject.piece.music.bars
        filled = first.upper.filled
        if not 0 < filled <= first.length / 2 or any(line.filled != filled for line in first.lines):
            continue
        lacking = [bar.length - line.filled for bar in others for line in bar.lines]
        if any(lacking[:-1]) or lacking[-1] not in (0, filled):
            continue
        length = written_length(filled)
        message = (
            f"the first bar holds {say_length(filled)} and states no chord: a pickup that no field announces"
        )
        hint = f"Write pickup: {length}"
        yield Finding(RULE.id, RULE.severity, message, first.span, (), hint, None, name)


RULE = Rule(
    id="rhythm/pickup-missing",
    title="A pickup that no field announces",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Pickup: with `pickup:` the first line is bar 0"),
    good=(Example("pickup: 1/4\n\n| 5:2 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -"),),
    bad=(Example("| 5:2 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -", marks=("| 5:2 5:4",)),),
    survey=run,
    stettable=False,
)
