"""A chromatic note that has a half step on one side only.

It is explained, and only noted: an approach from a leap, say. Half steps on both sides, a run or a
neighbour note, need no comment, nor do blue notes (but in plain style), tensions that
resolve, bends, slurred notes, notes
between a pair that encloses, suspensions, anticipations, drones and moved patterns.

Why it matters: a slip of one fret looks like this more often than not. In a log it is worth a second
look; in a work list it would cry wolf.

What to do: read the fret once more; nothing, if it is meant.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.tiers import LOOSE
from lickwright.checks.lines import relation, resolves
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report the chromatic notes of the loosest tier."""
    for role in subject.roles:
        if role.tier != LOOSE or not role.chromatic or role.address.bar in subject.outside:
            continue
        if relation(role.chord, role.pitch) == "c" and resolves(subject, role):
            continue
        name = subject.name_of(role)
        yield subject.report(
            RULE,
            f"{name}, outside the key over {role.chord.display}, has a half step on one side only",
            subject.by_address[role.address].tones[role.tone].span,
            role.address,
            help="Read the fret once more",
        )


RULE = Rule(
    id="harmony/loose-chromatic",
    title="A chromatic note with a half step on one side only",
    severity=Severity.NOTE,
    source=Source(
        "common practice",
        "Leading by half step; how loose, set on a printed collection of fiddle tunes: three to five of a"
        " thousand notes",
    ),
    good=(
        Example("key: A major\n\nA | 5:4 5:5 5:6 4:2 3:2 - - -"),
        Example("key: A major\n\nA | 4:2 4:1 4:2 - 3:2 - - -"),
    ),
    bad=(Example("key: A major\n\nA | 5:0 - 4:3 4:4 4:2 - - -", marks=("4:3",)),),
    run=run,
)
