"""A key that the manifest cannot do without is not there.

Why it matters: a course needs a title, an author and at least one unit.

What to do: write it.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/missing-key",
    title="A key that the manifest cannot do without is not there",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8, The course"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```",
            course="[course]\n"
            'title = "Example"\n'
            'author = "An author"\n'
            "\n"
            "[[unit]]\n"
            'title = "One"\n'
            'lessons = ["example.md"]\n',
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```",
            ("course",),
            course='[course]\ntitle = "Example"\n\n[[unit]]\ntitle = "One"\nlessons = ["example.md"]\n',
        ),
    ),
    stettable=False,
)
