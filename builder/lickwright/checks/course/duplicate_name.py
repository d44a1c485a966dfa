"""A name that is used for two blocks.

Why it matters: a link or a chorus cannot tell which of the two is meant.

What to do: names are unique in the course: rename one.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/duplicate-name",
    title="A name used for two blocks",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 1, Blocks"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```lick example\n"
            "A | 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```",
            ("example",),
        ),
    ),
    stettable=False,
)
