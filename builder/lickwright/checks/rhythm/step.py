"""A step that does not divide the meter or the pickup.

Why it matters: no number of slots would fill the bar.

What to do: take a shorter step.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/step",
    title="A step that does not divide the meter or the pickup",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("step: 1/16\n\nA7 | 5:0 - - - 5:4 - - - 4:2 - - - 5:4 - - -"),),
    bad=(Example("meter: 3/8\nstep: 1/4\n\nA | 5:0 5:4", ("1/4",)),),
    stettable=False,
)
