"""A note of the key under a name that the key does not have: A sharp in F major.

The names row is read; in minor the raised sixth and seventh belong to the key. A note of the chord is the
chord's matter, `spelling/chord-note`.

Why it matters: the staff is written in the key, and the student who looks for A sharp finds B flat there.

What to do: write the name as the key signature has it.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.misspelled import report_misspelled
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report the names that the key spells otherwise."""
    yield from report_misspelled(subject, RULE, "key")


RULE = Rule(
    id="spelling/key-note",
    title="A note of the key under another name",
    severity=Severity.QUERY,
    source=Source("common practice", "A key spells each of its seven letters once: rudiments of music"),
    good=(
        Example("key: F major\n\nC7 | 2:1 - 3:3 - 3:2 - - -\n  names | C Bb A"),
        Example("key: A minor\n\nE7 | 1:0 - 2:3 - 3:2 - 3:1 -\n  names | E D A G#"),
    ),
    bad=(Example("key: F major\n\nF | 2:1 - 3:3 - 3:2 - - -\n  names | C A# A", marks=("3:3",)),),
    run=run,
)
