"""A string that the guitar does not have.

Why it matters: strings run from 1, the highest-sounding, to as many as the tuning has.

What to do: mend the number.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/string",
    title="A string that the guitar does not have",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Slots"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("A7 | 7:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("7",)),),
    stettable=False,
)
