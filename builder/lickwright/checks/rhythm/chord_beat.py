"""Chords of a margin that do not share out the beats of the bar.

Why it matters: a chord that changes nowhere in particular cannot be played together.

What to do: say where each chord after the first begins, `A D@3`; a push is written `@4&`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/chord-beat",
    title="Chords of a margin that do not share out the beats of the bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(
        Example("A D | 5:0 - 5:4 - 4:0 - 4:4 -"),
        Example("pickup: 1/2\n\nA D@4 | 5:0 - 4:0 -\nD | 3:2 - - -"),
    ),
    bad=(
        Example("meter: 3/4\n\nA D | 5:0 - 5:4 - 4:0 -", ("D",)),
        Example("pickup: 1/4\n\nA D@2 | 5:0 5:2\nA | 5:4 - - - - -", ("D@2",)),
    ),
    stettable=False,
)
