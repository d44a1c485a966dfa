"""A variation changes a sound that its base does not have.

Why it matters: the change is lost.

What to do: addresses count in the lick that is varied: bar, point, sound.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/change-address",
    title="A variation changes a sound that its base does not have",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 4, Variations"),
    good=(
        Example(
            "```lick base\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```lick example\n"
            "vary: base\n"
            "1.7: 3:0\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```lick base\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```lick example\n"
            "vary: base\n"
            "1.9: 3:0\n"
            "```",
            ("1.9: 3:0",),
        ),
    ),
    stettable=False,
)
