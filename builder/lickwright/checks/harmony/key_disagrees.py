"""A lick in another key than its progression.

Why it matters: the key signature of the lick and that of the chart differ.

What to do: take the key of the progression, or leave the field out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/key-disagrees",
    title="A lick in another key than its progression",
    severity=Severity.NOTE,
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
            "key: D major\n"
            "over: porch bar 1\n"
            "\n"
            "| 5:0 - 5:4 - 4:2 - 3:2 -\n"
            "```",
            ("D major",),
        ),
    ),
)
