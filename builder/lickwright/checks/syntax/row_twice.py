"""The same row twice under one bar.

Why it matters: each row speaks of every sound of its bar, and two that differ leave the student with two
fingers, or two strokes, for one note; only the first is read.

What to do: keep the one that is right. Where the second was meant for the lower voice, put it under
``low |``; where it was meant for the next bar, that bar's line is missing between the two.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-twice",
    title="The same row twice under one bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4"),),
    bad=(
        Example(
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4\n  lh | 0 4 2 4 2 4 2 4", ("lh",)
        ),
    ),
    stettable=False,
)
