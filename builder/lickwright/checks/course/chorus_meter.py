"""Licks of one chorus in another meter than its progression.

Why it matters: lick and band drift apart.

What to do: let the licks of one chorus share the meter of their progression.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/chorus-meter",
    title="Licks of one chorus in different meters",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 3, Progressions, choruses, excerpts"),
    good=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A\n"
            "```\n"
            "\n"
            "```lick one\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```\n"
            "\n"
            "```chorus first\n"
            "over: porch\n"
            "licks: one x2\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```progression porch\n"
            "key: A major\n"
            "\n"
            "A | A\n"
            "```\n"
            "\n"
            "```lick one\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```\n"
            "\n"
            "```lick two\n"
            "meter: 3/4\n"
            "\n"
            "A | 5:0 - 5:4 - 4:2 -\n"
            "```\n"
            "\n"
            "```chorus first\n"
            "over: porch\n"
            "licks: one two\n"
            "```",
            ("two",),
        ),
    ),
    stettable=False,
)
