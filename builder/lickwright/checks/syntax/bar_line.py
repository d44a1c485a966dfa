"""A bar without its bar line.

Why it matters: what stands before the `|` is the chord, what stands after it is played; without it the two
cannot be told apart.

What to do: write the `|` before the first slot.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/bar-line",
    title="A bar without its bar line",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Lines"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(
        Example(
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n5:0 - 5:4 - 4:2 - 3:2 -", ("5:0 - 5:4 - 4:2 - 3:2 -",)
        ),
    ),
    stettable=False,
)
