"""A row with no bar above it.

Why it matters: a row says something of the sounds of the bar it stands under.

What to do: write the bar first.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-place",
    title="A row with no bar above it",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4"),),
    bad=(Example("  lh | 0 4 2 4 2 4 2 4\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("lh",)),),
    stettable=False,
)
