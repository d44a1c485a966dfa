"""A chromatic note that is not named by the way it goes: raised going up, lowered going down.

It is only noted. B flat may go up to B in C, and F sharp come down to F; the same goes for a note as the
next chord spells it. Names that would need a double accidental, and B sharp, E sharp, C flat and F flat,
give way to plain ones.

Why it matters: G, G sharp, A reads as one step up; G, A flat, A crosses a natural out again.

What to do: take the letter that the note comes from, and raise it going up or lower it going down.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.misspelled import report_misspelled
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Report chromatic names against the direction of the line."""
    yield from report_misspelled(subject, RULE, "direction")


RULE = Rule(
    id="spelling/direction",
    title="A chromatic note named against the way it goes",
    severity=Severity.NOTE,
    source=Source(
        "common practice", "Chromatic notes raised going up, lowered going down; Gould, from memory"
    ),
    good=(
        Example("key: C major\n\nC | 3:0 - 3:1 - 3:2 - 3:0 -\n  names | G G# A G"),
        Example("key: C major\n\nC | 3:2 - 3:1 - 3:0 - - -\n  names | A Ab G"),
        Example("key: C major\n\nC | 2:1 - 3:3 - 2:0 - 2:1 -\n  names | C Bb B C"),
    ),
    bad=(
        Example("key: C major\n\nC | 3:0 - 3:1 - 3:2 - 3:0 -\n  names | G Ab A G", marks=("3:1",)),
        Example("key: C major\n\nC | 3:2 - 3:1 - 3:0 - - -\n  names | A G# G", marks=("3:1",)),
    ),
    run=run,
)
