"""A lick with no chord in force.

Why it matters: nothing can be judged against the harmony, and the band is silent.

What to do: write the chord in the margin, or `N.C.` where none is meant.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/no-chord-stated",
    title="A bar with no chord in force",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("N.C. | 5:0 - 5:4 - 4:2 - 3:2 -"),),
    bad=(Example("| 5:0 - 5:4 - 4:2 - 3:2 -", ("",)),),
)
