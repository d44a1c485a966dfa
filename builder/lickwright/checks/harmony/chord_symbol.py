"""A chord symbol that cannot be read.

Why it matters: without its chord no note of the bar can be judged, and the band does not know what to play.

What to do: write it as the handbook's table of chords has it.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/chord-symbol",
    title="A chord symbol that cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("Gmaj9 | 6:3 - 5:2 - 4:4 - 3:2 -"),),
    bad=(
        Example("Gmay9 | 6:3 - 5:2 - 4:4 - 3:2 -", ("Gmay9",)),
        Example("am | 5:0 - 5:3 - 4:2 - 3:2 -", ("am",)),
    ),
    stettable=False,
)
