"""A note of the chord under a name that the chord does not have: D flat in A7.

A chord is spelled in thirds from its root. A plain name is taken for a double flat or sharp, and any
plain name in a diminished seventh, whose notes go by whichever is easier to read.

Why it matters: the third of A7 is some kind of C; called D flat it can no longer be found in the chord.

What to do: write the name as the chord has it.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.misspelled import report_misspelled
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report the names that the chord spells otherwise."""
    yield from report_misspelled(subject, RULE, "chord")


RULE = Rule(
    id="spelling/chord-note",
    title="A note of the chord under another name",
    severity=Severity.QUERY,
    source=Source("common practice", "Chords are spelled in thirds from the root: rudiments of harmony"),
    good=(
        Example("key: D minor\n\nA7 | 5:0 - 5:4 - 4:2 - 3:0 -\n  names | A C# E G"),
        Example("key: C minor\n\nCdim7 | 3:5 - 2:4 - 2:7 - 1:5 -\n  names | C Eb Gb A"),
    ),
    bad=(
        Example("key: D minor\n\nA7 | 5:0 - 5:4 - 4:2 - 3:0 -\n  names | A Db E G", marks=("5:4",)),
        Example("key: G major\n\nD7 | 4:0 - 4:4 - 3:2 - 2:1 -\n  names | D Gb A C", marks=("4:4",)),
    ),
    run=run,
)
