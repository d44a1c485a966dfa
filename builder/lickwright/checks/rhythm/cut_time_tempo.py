"""A bare tempo in cut time counts half notes.

Why it matters: `120` in 2/2 is twice as fast as in 4/4, and half of all readers expect the other.

What to do: write the beat with it: `half = 120`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/cut-time-tempo",
    title="A bare tempo in cut time counts half notes",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("meter: 2/2\ntempo: half = 80\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("meter: 2/2\ntempo: 80\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("80",)),),
)
