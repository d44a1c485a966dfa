"""There is no course.toml.

Why it matters: without it nothing says which lessons the course has, and in which order.

What to do: write one; `lickwright start` makes a small course to begin with.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/manifest-missing",
    title="There is no course.toml",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8, The course"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```", ("",), course=None),),
    stettable=False,
)
