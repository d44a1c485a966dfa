"""A repeated bar that meets two different chords.

Why it matters: its notes are printed once, and one chord symbol stands over them.

What to do: write the repeat out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/over-repeat",
    title="A repeated bar that meets two different chords",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("over: A7 D7\n\n| 5:0 - 5:4 - 4:2 - 3:2 -\n| 4:0 - 4:4 - 3:2 - 2:1 -"),),
    bad=(Example("over: A7 D7\n\n|: 5:0 - 5:4 - 4:2 - 3:2 - :|", ("|: 5:0 - 5:4 - 4:2 - 3:2 - :|",)),),
    stettable=False,
)
