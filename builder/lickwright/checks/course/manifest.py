"""The manifest is not TOML, or the value of a key is not what it should be.

Why it matters: the default is taken, or nothing can be read at all.

What to do: mend the line.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/manifest",
    title="The manifest is not TOML, or a key's value is not what it should be",
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
            ('"fast"',),
            course="[course]\n"
            'title = "Example"\n'
            'author = "An author"\n'
            'tempo = "fast"\n'
            "\n"
            "[[unit]]\n"
            'title = "One"\n'
            'lessons = ["example.md"]\n',
        ),
    ),
    stettable=False,
)
