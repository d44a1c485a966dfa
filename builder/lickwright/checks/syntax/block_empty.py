"""A block that holds nothing to play or to show.

Why it matters: an empty picture stands in the lesson.

What to do: write its bars, or take the block out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/block-empty",
    title="A block holds nothing to play or to show",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 1, Blocks"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(Example("```lick example\ntitle: Nothing yet\n```", ("```lick example",)),),
    stettable=False,
)
