"""A blue note under a raised name: D sharp for the flat third of C.

The flat third, fifth and seventh of the key keep their flat names; only a note that leads up by a half
step is written raised (F sharp to G, D sharp to E in C).

Why it matters: a student is taught the flat third; D sharp says a raised second.

What to do: write the flat name.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.misspelled import report_misspelled
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report blue notes that are named as raised ones."""
    yield from report_misspelled(subject, RULE, "blue")


RULE = Rule(
    id="spelling/blue-degree",
    title="A blue note under a raised name",
    severity=Severity.NOTE,
    source=Source("common practice", "The blues scale as taught: flat third, fifth and seventh"),
    good=(
        Example("key: C major\n\nC7 | 2:1 - 2:4 - 2:1 - - -\n  names | C Eb C"),
        Example("key: C major\n\nC7 | 3:0 3:5 2:4 2:5 2:1 - - -\n  names | G C D# E C"),
    ),
    bad=(Example("key: C major\n\nC7 | 2:1 - 2:4 - 2:1 - - -\n  names | C D# C", marks=("2:4",)),),
    run=run,
)
