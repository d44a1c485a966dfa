"""A group that is not closed, has fewer than two members, or an impossible size.

Why it matters: its members share its time evenly; without an end or with one member there is nothing to
share.

What to do: close it; write its size, 1 to 16, after `/`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/group",
    title="A group that is not closed, too small, or of an impossible size",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Groups"),
    good=(Example("A7 | (4:0 5:4 5:3)/2 5:4 - 4:2 - 3:2 -"),),
    bad=(
        Example("A7 | (4:0)/2 5:4 - 4:2 - 3:2 -", ("(4:0)/2",)),
        Example("A7 | (4:0 5:4 5:3)/20 5:4 - 4:2 - 3:2 -", ("(4:0 5:4 5:3)/20",)),
    ),
    stettable=False,
)
