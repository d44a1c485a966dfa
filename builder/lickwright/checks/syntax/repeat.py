"""Repeat signs or endings that do not fit together.

Why it matters: nobody can say in which order the bars are played.

What to do: close what is opened; write endings as they are printed, `1.` and `2.`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/repeat",
    title="Repeat signs or endings that do not fit together",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("A |: 5:0 - 5:4 - 4:2 - 3:2 -\nA | 3:2 - 4:2 - 5:4 - 5:0 - :|"),),
    bad=(
        Example(
            "A |: 5:0 - 5:4 - 4:2 - 3:2 -\nA | 3:2 - 4:2 - 5:4 - 5:0 -", ("A |: 5:0 - 5:4 - 4:2 - 3:2 -",)
        ),
    ),
    stettable=False,
)
