"""The name of a row that is not written as it should be.

Why it matters: a row that is not known says nothing.

What to do: rows are rh, lh, names, degrees, signs and low.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-kind",
    title="The name of a row is not written as it should be",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4"),),
    bad=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  LH | 0 4 2 4 2 4 2 4", ("LH",)),),
    stettable=False,
)
