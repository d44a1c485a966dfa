"""A row of the second witness that has slipped by one sound: an entry is missing, and another is there twice.

Three sounds or more disagree with the row, and each of its entries fits the sound beside its own.

Why it matters: the notes are right and the row is not; told note by note it looks the other way round.

What to do: put the missing entry in, and take the extra one out.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.witness_slips import Slip


def run(subject: Subject) -> Iterator[Finding]:
    """Look at both rows."""
    for row in ("names", "degrees"):
        for slip in subject.slips(row).values():
            if slip.by:
                yield _finding(subject, slip)


def _finding(subject: Subject, slip: Slip) -> Finding:
    first, last = slip.sounds[0], slip.sounds[-1]
    place = dict(first.entries).get(slip.row, first.span)
    where = "early" if slip.by == 1 else "late"
    missing, extra = (first, last) if slip.by == 1 else (last, first)
    return subject.report(
        RULE,
        f"from {first.address} to {last.address} the {slip.row} row stands one sound {where}",
        place,
        first.address,
        help=f"An entry is missing at {missing.address}, and one is too many at {extra.address}",
    )


RULE = Rule(
    id="witness/shifted-row",
    title="A row that has slipped by one sound",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Rows: the second witness"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  names | A C# E F# A F# E C#"),),
    bad=(
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:0\n  names | A E F# A F# E E A", marks=("E",)),
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:0\n  degrees | 1 1 3 5 6 1 5 1", marks=("1",)),
    ),
    run=run,
)
