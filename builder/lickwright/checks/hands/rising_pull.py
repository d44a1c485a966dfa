"""A pull-off that does not fall.

Why it matters: a pull-off sounds the lower note that is left when the finger snaps off; a higher
one cannot be there.

What to do: write ``h`` for a hammer-on, or mend the fret.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import list_wrong_way
from lickwright.checks.subject import Subject
from lickwright.model.slots import JoinKind


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every pull-off."""
    for lead, fix in list_wrong_way(subject.leads, JoinKind.PULL):
        yield subject.report(
            RULE,
            f"a pull-off falls, and this one rises from fret {lead.before.fret} to {lead.after.fret}"
            f" on string {lead.after.string}",
            lead.span,
            lead.address,
            help="Write h for a hammer-on, or mend the fret" if fix is None else "Or mend the fret",
            fix=fix,
        )


RULE = Rule(
    id="hands/rising-pull",
    title="A pull-off that rises",
    severity=Severity.ERROR,
    source=Source("common practice", "A hammer-on rises on one string, a pull-off falls"),
    good=(Example("A7 | 4:2 - p 4:0 - 5:0 - - -"),),
    bad=(Example("A7 | 4:2 - p 4:4 - 5:0 - - -", marks=("4:4",)),),
    run=run,
)
