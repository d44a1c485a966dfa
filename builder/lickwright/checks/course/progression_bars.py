"""Bars that the progression does not have.

Why it matters: the lick would run on over nothing.

What to do: count its bars as they are played.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/progression-bars",
    title="Bars that the progression does not have",
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
            "over: porch bar 4\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
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
            "over: porch bar 5\n"
            "\n"
            "A | 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```",
            ("porch bar 5",),
        ),
    ),
    stettable=False,
)
