"""A bracket inside another of its own kind.

Why it matters: the inner one closes the outer one there, which may not be what was meant.

What to do: close the first before the second opens.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/bracket-twice",
    title="A bracket inside another of its own kind",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 2, A lick, Brackets"),
    good=(Example("A | ring[4:2 3:2] ring[2:2 1:0] 2:2 - 3:2 -"),),
    bad=(Example("A | ring[4:2 3:2 ring[2:2 1:0] 2:2 - 3:2 -", ("ring[",)),),
    stettable=False,
)
