"""A lick that is not in the course.

Why it matters: a variation, a chorus or an excerpt has nothing to draw on.

What to do: mend the name.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/unknown-lick",
    title="A lick that is not in the course",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 4, Variations"),
    good=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```excerpt\n"
            "of: example\n"
            "show: bar 1\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```excerpt\n"
            "of: exampel\n"
            "show: bar 1\n"
            "```",
            ("exampel",),
        ),
        Example("```lick over-d\nvary: exampel\n1.1: 5:2\n```", ("exampel",)),
    ),
    stettable=False,
)
