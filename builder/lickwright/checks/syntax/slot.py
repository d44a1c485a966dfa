"""A slot that is none of the forms.

Why it matters: a slot that cannot be read is played as nothing, and the bar no longer adds up.

What to do: write STRING:FRET, a hold `-`, a rest `.`, a join, or a group.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/slot",
    title="A slot that is none of the forms",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Slots"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("A7 | 5:0 5:4 4:2 ?? 3:2 4:4 4:2 5:4", ("??",)),),
    stettable=False,
)
