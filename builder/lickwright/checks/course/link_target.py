"""A link to a lick or chorus that is not in the course.

Why it matters: the student touches words that play nothing.

What to do: mend the name in the link's address.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/link-target",
    title="A link to a lick or chorus that is not in the course",
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
            "It begins on [the root](lick:exampel@1.1).",
            ("lick:exampel@1.1",),
        ),
    ),
    stettable=False,
)
