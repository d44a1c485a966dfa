"""An excerpt shows bars or sounds that its lick does not have.

Why it matters: the picture in the lesson would be empty.

What to do: mend the address.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/excerpt-address",
    title="An excerpt shows bars or sounds that its lick does not have",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 3, Progressions, choruses, excerpts"),
    good=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "```excerpt\n"
            "of: example\n"
            "show: 1.1-1.4\n"
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
            "of: example\n"
            "show: bars 2-3\n"
            "```",
            ("bars 2-3",),
        ),
    ),
    stettable=False,
)
