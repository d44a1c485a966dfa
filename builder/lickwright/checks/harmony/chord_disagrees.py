"""A margin that names another chord than the progression.

Why it matters: the band plays one, the page shows the other.

What to do: write the progression's chord, or leave the margin empty; vary the lick where it is to fit
another chord.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/chord-disagrees",
    title="A margin that names another chord than the progression",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("over: A7 D7\n\nA7 | 5:0 - 5:4 - 4:2 - 3:2 -\n| 4:0 - 4:4 - 3:2 - 2:1 -"),),
    bad=(Example("over: A7 D7\n\nA7 | 5:0 - 5:4 - 4:2 - 3:2 -\nA7 | 5:0 - 5:4 - 4:2 - 3:2 -", ("A7",)),),
)
