"""The same row twice under one bar.

Why it matters: only one of the two can hold.

What to do: keep one.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-twice",
    title="The same row twice under one bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4"),),
    bad=(
        Example(
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4\n  lh | 0 4 2 4 2 4 2 4", ("lh",)
        ),
    ),
    stettable=False,
)
