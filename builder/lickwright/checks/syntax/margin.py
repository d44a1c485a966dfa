"""A margin that cannot be read.

Why it matters: the margin holds the meter, the repeat, the ending and the chords of the bar, in that order.

What to do: mend it as the finding says.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/margin",
    title="A margin that cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("2/4 A7 | 5:0 5:4 4:2 5:4"),),
    bad=(Example("17/4 A7 | 5:0 - 5:4 - 4:2 - 5:4 -", ("17/4",)),),
    stettable=False,
)
