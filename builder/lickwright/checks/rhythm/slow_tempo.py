"""The reduced tempo is not lower than the tempo.

Why it matters: the reduced tempo is there to practise at.

What to do: lower it, or take the field out: it is then 55 % of the tempo.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/slow-tempo",
    title="The reduced tempo is not lower than the tempo",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("tempo: 120\nslow: 70\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("tempo: 120\nslow: 130\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("130",)),),
    stettable=False,
)
