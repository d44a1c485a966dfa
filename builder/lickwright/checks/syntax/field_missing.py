"""A field that the block cannot do without is not there.

Why it matters: without it there is nothing to play over, or to show.

What to do: write it.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/field-missing",
    title="A field that the block cannot do without is not there",
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
            "show: bar 1\n"
            "```"
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n\n```excerpt\nshow: bars 1\n```",
            ("```excerpt",),
        ),
    ),
    stettable=False,
)
