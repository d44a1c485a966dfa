"""A double sharp or double flat that neither chord nor key asks for.

Why it matters: it is hard to read at sight, and here nothing is gained by it.

What to do: write the plain name. Where the chord has it, B double flat in E flat diminished, it may stand.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.misspelled import report_misspelled
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report double accidentals without a reason."""
    yield from report_misspelled(subject, RULE, "double")


RULE = Rule(
    id="spelling/double-accidental",
    title="A double accidental that nothing asks for",
    severity=Severity.NOTE,
    source=Source("common practice", "Double accidentals only where the chord has them; Gould, from memory"),
    good=(
        Example("key: F# major\n\nF#aug | 4:4 - 3:3 - 2:3 - - -\n  names | F# A# C##"),
        Example("key: C major\n\nC | 2:1 - 3:2 - 3:0 - - -\n  names | C A G"),
    ),
    bad=(Example("key: C major\n\nC | 2:1 - 3:2 - 3:0 - - -\n  names | C G## G", marks=("3:2",)),),
    run=run,
)
