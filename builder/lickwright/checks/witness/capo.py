"""A capo that the second witness contradicts: with another one, what its rows say comes true.

The notes of a lick, in two bars or more, all lie the same interval off their names (or, where no names are
given, their degrees). Where the licks that take their capo from the course all tell of the same other one,
the manifest is accused, once for the course.

Why it matters: with the wrong capo every note sounds wrong, and every rule says so; no finger slips forty
times alike.

What to do: write the capo that is named. A lick without open strings may also have been written too high
or too low on the neck: look at the frets.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.guitar_places import accuse, list_accused
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Name the capo with which the rows come true."""
    for misread in list_accused(survey, "capo"):
        capo, reading = misread.written.capo, misread.reading
        written = f"capo {capo} is written" if capo else "none is written"
        with_capo = f"with capo {reading.guitar.capo}" if reading.guitar.capo else "without a capo"
        message = f"read {with_capo} {reading.agreed}; {written}"
        yield accuse(survey, RULE, misread, message, str(reading.guitar.capo))


RULE = Rule(
    id="witness/capo",
    title="A capo that the names contradict",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Capo, and Rows: the second witness"),
    good=(
        Example(
            "capo: 2\nkey: D major\n\nD | 5:3 - 4:2 - 3:0 - 2:1 -\n  names | D F# A D\n"
            "G | 4:3 - 3:2 - 2:1 - 1:1 -\n  names | G B D G",
        ),
    ),
    bad=(
        Example(
            "capo: 4\nkey: D major\n\nD | 5:3 - 4:2 - 3:0 - 2:1 -\n  names | D F# A D\n"
            "G | 4:3 - 3:2 - 2:1 - 1:1 -\n  names | G B D G",
            marks=("4",),
        ),
    ),
    survey=run,
    stettable=False,
)
