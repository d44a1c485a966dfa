"""Variations that lead back to themselves.

Why it matters: none of them has notes of its own.

What to do: let one of them be the lick the others are made from.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/vary-circle",
    title="Variations that lead back to themselves",
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
            "```lick other\nvary: example\n```\n\n```lick example\nvary: other\n```",
            ("example",),
        ),
    ),
    stettable=False,
)
