"""A field, a shape or a change that is given twice.

Why it matters: only one of the two can hold.

What to do: keep one.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/field-twice",
    title="A field, a shape or a change given twice",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("tempo: 100\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("tempo: 100\ntempo: 120\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("tempo",)),),
    stettable=False,
)
