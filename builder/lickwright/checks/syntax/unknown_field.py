"""A field that the block does not have.

Why it matters: it is read as nothing: what the author meant to say is lost.

What to do: take the nearest right name, which the finding gives.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/unknown-field",
    title="A field that the block does not have",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("tempo: 100\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("tempoo: 100\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("tempoo",)),),
    stettable=False,
)
