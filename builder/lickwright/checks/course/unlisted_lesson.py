"""A lesson file that no unit lists.

Why it matters: it is not proofed and not published.

What to do: list it among the lessons or the drafts of a unit, or take it away.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/unlisted-lesson",
    title="A lesson file that no unit lists",
    severity=Severity.NOTE,
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
            files=(("lessons/other.md", "# Other\n\nText.\n"),),
        ),
    ),
    stettable=False,
)
