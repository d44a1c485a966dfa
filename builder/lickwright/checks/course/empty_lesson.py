"""A lesson with nothing in it.

Why it matters: a student opens an empty page.

What to do: write it, or move it to the drafts.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/empty-lesson",
    title="A lesson with nothing in it",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 8, The course"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(Example("", ("",)),),
    stettable=False,
)
