"""A link to notes whose address cannot be read.

Why it matters: the words point at nothing.

What to do: write lick:, the name, and perhaps @ and an address.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/link",
    title="A link to notes whose address cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes"),
    good=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "It begins on [the root](lick:example@1.1)."
        ),
    ),
    bad=(
        Example(
            "```lick example\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
            "```\n"
            "\n"
            "It begins on [the root](lick:example@one).",
            ("lick:example@one",),
        ),
    ),
    stettable=False,
)
