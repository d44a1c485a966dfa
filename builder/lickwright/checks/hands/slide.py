"""A slide that changes finger, or goes farther than an octave.

A slide keeps its finger on the string: where both ends carry one, it is the same. More than twelve
frets are only noted.

Why it matters: the finger that arrives is the finger that left; another number makes the reader
stop and wonder which of the two is meant.

What to do: mend one of the fingers, or strike the second note.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.slots import SLIDES

OCTAVE = 12
"""Frets."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every slide between two notes."""
    for lead in subject.leads:
        if lead.kind not in SLIDES:
            continue
        left, arrived = lead.before.finger, lead.after.finger
        if left and arrived and left != arrived and "0" not in (left, arrived):
            yield subject.report(
                RULE,
                f"a slide keeps its finger, and this one leaves with {left} and arrives with {arrived}",
                lead.span,
                lead.address,
                help="Give both ends one finger",
            )
        elif lead.before.fret and lead.after.fret and abs(lead.after.fret - lead.before.fret) > OCTAVE:
            yield subject.report(
                RULE,
                f"a slide over {abs(lead.after.fret - lead.before.fret)} frets is a long way for one finger",
                lead.span,
                lead.address,
                severity=Severity.NOTE,
            )


RULE = Rule(
    id="hands/slide",
    title="A slide that changes finger or goes beyond an octave",
    severity=Severity.ERROR,
    source=Source("common practice", "A slide keeps its finger"),
    good=(Example("A7 | 3:6 - s 3:9 - 2:10 - - -\n  lh | 1 1 2"),),
    bad=(
        Example("A7 | 3:6 - s 3:9 - 2:10 - - -\n  lh | 1 3 2", marks=("3:9",)),
        Example("A7 | 3:2 - s 3:18 - 2:17 - - -", marks=("3:18",)),
    ),
    run=run,
)
