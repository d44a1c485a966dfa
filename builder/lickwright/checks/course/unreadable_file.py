"""A file that cannot be read.

Why it matters: what stands in it is missing from the course.

What to do: look at its permissions, and whether it is a file at all.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/unreadable-file",
    title="A file that cannot be read",
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
            ("",),
            course="[course]\n"
            'title = "Example"\n'
            'author = "An author"\n'
            "\n"
            "[[unit]]\n"
            'title = "One"\n'
            'lessons = ["example.md", "other.md"]\n',
            files=(("lessons/other.md", None),),
        ),
    ),
    stettable=False,
)
