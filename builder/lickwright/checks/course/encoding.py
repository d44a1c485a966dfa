"""A file that is not UTF-8.

Why it matters: its letters cannot be told for certain, accents and accidentals least of all.

What to do: save it as UTF-8.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/encoding",
    title="A file that is not UTF-8",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Lines"),
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
            "# Example\n\n```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```",
            ("�",),
            course="[course]\n"
            'title = "Example"\n'
            'author = "An author"\n'
            "\n"
            "[[unit]]\n"
            'title = "One"\n'
            'lessons = ["example.md", "other.md"]\n',
            files=(("lessons/other.md", b"# Other\n\nCaf\xe9\n"),),
        ),
    ),
    stettable=False,
)
