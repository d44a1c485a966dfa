"""A hammer-on that does not rise.

Why it matters: a hammer-on sounds the string by bringing a finger down on a higher fret; to a
lower one there is nothing to hammer.

What to do: write ``p`` for a pull-off, or mend the fret.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import list_wrong_way
from lickwright.checks.subject import Subject
from lickwright.model.slots import JoinKind


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every hammer-on."""
    for lead, fix in list_wrong_way(subject.leads, JoinKind.HAMMER):
        yield subject.report(
            RULE,
            f"a hammer-on rises, and this one falls from fret {lead.before.fret} to {lead.after.fret}"
            f" on string {lead.after.string}",
            lead.span,
            lead.address,
            help="Write p for a pull-off, or mend the fret" if fix is None else "Or mend the fret",
            fix=fix,
        )


RULE = Rule(
    id="hands/falling-hammer",
    title="A hammer-on that falls",
    severity=Severity.ERROR,
    source=Source("common practice", "A hammer-on rises on one string, a pull-off falls"),
    good=(Example("A7 | 4:2 - h 4:4 - 5:0 - - -"), Example("A7 | g(3:1) 3:2 - - - 5:0 - - -")),
    bad=(Example("A7 | 4:4 - h 4:2 - 5:0 - - -", marks=("4:2",)),),
    run=run,
)
