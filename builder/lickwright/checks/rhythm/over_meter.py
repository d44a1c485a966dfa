"""A lick in another meter than its progression.

Why it matters: lick and band would drift apart from the second bar on.

What to do: take the meter of the progression.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/over-meter",
    title="A lick in another meter than its progression",
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
            "over: porch bar 1\n"
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
            "meter: 3/4\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 -\n"
            "```",
            ("3/4",),
        ),
    ),
    stettable=False,
)
