"""Chords over a lick that are not one for each bar as played.

Why it matters: from the first bar that has none, every chord stands over the wrong bar.

What to do: write one chord a bar, repeats counted, or one alone for all.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/over-count",
    title="Chords over a lick that are not one for each bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("over: A7 D7\n\n| 5:0 - 5:4 - 4:2 - 3:2 -\n| 4:0 - 4:4 - 3:2 - 2:1 -"),),
    bad=(Example("over: A7 D7 A7\n\n| 5:0 - 5:4 - 4:2 - 3:2 -\n| 4:0 - 4:4 - 3:2 - 2:1 -", ("A7 D7 A7",)),),
    stettable=False,
)
