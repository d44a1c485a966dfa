"""Licks of one chorus in different tunings or with different capos.

Why it matters: nobody retunes between two bars.

What to do: let the licks of one chorus share tuning and capo.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/chorus-guitar",
    title="Licks of one chorus in different tunings or with different capos",
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
            "tuning: D2 A2 D3 G3 B3 E4\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
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
