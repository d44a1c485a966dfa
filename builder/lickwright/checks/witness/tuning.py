"""A tuning that the second witness contradicts: with another one, what its rows say comes true.

Of one string or several, three notes or more at two frets or more lie the same interval off their names (or,
where no names are given, their degrees), string by string, and the other strings agree. Where the licks
that take their tuning from the course all tell of the same other one, the manifest is accused, once for
the course.

Why it matters: with one string tuned otherwise every note on it is another, and told note by note the fault
looks like many.

What to do: write the tuning that is named.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.guitar_places import accuse, list_accused
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Name the tuning with which the rows come true."""
    for misread in list_accused(survey, "tuning"):
        tuning = misread.reading.guitar.tuning.text
        message = f"tuned {tuning} {misread.reading.agreed}; {misread.written.tuning.text} is written"
        yield accuse(survey, RULE, misread, message, tuning)


_LICK = (
    "key: D major\n\nD | 6:0 - 6:2 - 6:4 - 4:0 -\n  names | D E F# D\n"
    "D | 6:4 - 6:2 - 6:0 - 4:0 -\n  names | F# E D D"
)

RULE = Rule(
    id="witness/tuning",
    title="A tuning that the names contradict",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8: tuning, and section 2, Rows: the second witness"),
    good=(Example(f"tuning: D2 A2 D3 G3 B3 E4\n{_LICK}"),),
    bad=(Example(f"tuning: E2 A2 D3 G3 B3 E4\n{_LICK}", marks=("E2 A2 D3 G3 B3 E4",)),),
    survey=run,
    stettable=False,
)
