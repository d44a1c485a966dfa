"""A field whose value cannot be read.

Why it matters: the default is taken in its place, which is hardly what was meant.

What to do: write the value as the finding says.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/field-value",
    title="A field whose value cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("key: D mixolydian\n\nD7 | 4:0 - 4:4 - 3:2 - 2:1 -"),),
    bad=(
        Example("key: A majr\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("A majr",)),
        Example("tempo: fast\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("fast",)),
    ),
    stettable=False,
)
