"""A progression that is not in the course.

Why it matters: there is nothing to play the lick over.

What to do: mend the name.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/unknown-progression",
    title="A progression that is not in the course",
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
            "over: poch bar 1\n"
            "\n"
            "A | 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```",
            ("poch bar 1",),
        ),
    ),
    stettable=False,
)
