"""A bracket that is not opened, not closed, or closed in the wrong order.

Why it matters: how long the notes ring or are muted cannot be told.

What to do: close brackets and parentheses in the order in which they were opened.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/bracket",
    title="A bracket not opened, not closed, or closed in the wrong order",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Brackets"),
    good=(Example("A | ring[4:2 3:2 2:2 1:0] 2:2 - 3:2 -"),),
    bad=(
        Example("A | ring[4:2 3:2 2:2 1:0 2:2 - 3:2 -", ("ring[",)),
        Example("A | 4:2 3:2 2:2 1:0] 2:2 - 3:2 -", ("]",)),
    ),
    stettable=False,
)
