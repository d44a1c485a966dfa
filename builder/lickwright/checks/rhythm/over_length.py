"""A lick that is not as long as the bars of the progression it is said to be over.

Why it matters: one of the two has slipped: the bars that are named, or the lick.

What to do: name as many bars as the lick has when it is played.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/over-length",
    title="A lick not as long as the bars of the progression it is said to be over",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A | D7 | A\n"
            "```\n"
            "\n"
            "```lick example\n"
            "over: porch bars 1-2\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "| 4:2 - 3:2 - 4:2 - 5:4 -\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A | D7 | A\n"
            "```\n"
            "\n"
            "```lick example\n"
            "over: porch bars 1-3\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "| 4:2 - 3:2 - 4:2 - 5:4 -\n"
            "```",
            ("porch bars 1-3",),
        ),
    ),
    stettable=False,
)
