"""A change of a variation that cannot be read or has no place where it stands.

Why it matters: the sound of the base stays as it is.

What to do: write ADDRESS: STRIKE, or `.` to silence the sound.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/change",
    title="A change of a variation that cannot be read or has no place here",
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
            "1.7: 3:0 3:2\n"
            "```",
            ("3:0 3:2",),
        ),
    ),
    stettable=False,
)
