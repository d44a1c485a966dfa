"""A link to a heading that the lesson does not have.

The heading is written behind `#` in small letters, with hyphens between its words; `#lick-NAME` leads to
the lick of that name.

Why it matters: the page opens at its top, not where the words promise.

What to do: mend the heading, or leave out what stands behind the name of the lesson.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_LICK = "```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n\n"
RULE = Rule(
    id="course/unknown-anchor",
    title="A link to a heading that the lesson does not have",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 8, The course"),
    good=(Example(f"{_LICK}Back to [the lick](#lick-example)."),),
    bad=(Example(f"{_LICK}Back to [the lick](#the-lick).", ("#the-lick",)),),
    stettable=False,
)
