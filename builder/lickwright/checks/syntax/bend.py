"""A bend that cannot be played as written.

Up to a lower fret, released upwards, or behind the nut on a fretted string.

Why it matters: a bend names the fret whose pitch it reaches; a digit has slipped.

What to do: mend the target.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/bend",
    title="A bend that cannot be played as written",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Slots"),
    good=(Example("A7 | 3:7b9 - 2:5 1:5 2:5 3:6 4:7 -"),),
    bad=(Example("A7 | 3:7b5 - 2:5 1:5 2:5 3:6 4:7 -", ("b5",)),),
    stettable=False,
)
