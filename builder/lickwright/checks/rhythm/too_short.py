"""Notes that would be printed shorter than a 256th.

Why it matters: print has no name for anything shorter, and no hand plays it; mostly a group is to
take more steps than it says.

What to do: give the group its steps, `/2`, or take a longer step, or fewer groups in groups; a sound
with many bends is held longer.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/too-short",
    title="Notes that would be printed shorter than a 256th",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Groups"),
    good=(Example("A7 | ((5:0 5:4) 4:2)/2 4:4 3:2 - 4:4 4:2 5:4"),),
    bad=(Example("A7 | ((((((5:0 5:4) 4:2) 5:4) 4:2) 5:4) 4:2) 4:4 3:2 - 4:4 4:2 5:4 5:0", ("5:0",)),),
    stettable=False,
)
