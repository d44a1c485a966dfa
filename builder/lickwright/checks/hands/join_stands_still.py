"""A join after which no string has moved.

Why it matters: a hammer-on, pull-off or slide leads to another fret; the same fret is a hold or a new
stroke.

What to do: mend the fret, or write `-`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="hands/join-stands-still",
    title="A join after which no string has moved",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Joins"),
    good=(Example("A7 | 3:2 - s 3:4 - 4:2 - 5:4 -"),),
    bad=(Example("A7 | 3:2 - s 3:2 - 4:2 - 5:4 -", ("s",)),),
    stettable=False,
)
