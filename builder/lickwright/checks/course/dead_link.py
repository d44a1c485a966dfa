"""A link to a lesson that is not there.

A link leads to a lesson of the course by its file, `gangplank.md`, perhaps with a heading behind it, to
notes, or to a page of the web.

Why it matters: the site prints the words without the link.

What to do: mend the name of the lesson.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_LICK = "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n\n"
RULE = Rule(
    id="course/dead-link",
    title="A link to a lesson that is not there",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8, The course"),
    good=(Example(f"{_LICK}Back to [the lick](example.md)."),),
    bad=(Example(f"{_LICK}On to [the next](next.md).", ("next.md",)),),
    stettable=False,
)
