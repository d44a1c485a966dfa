"""A fence that is never closed.

Why it matters: everything to the end of the file is taken for music.

What to do: close it with the same sign it was opened with.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/block-open",
    title="A fence is never closed",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 1, Blocks"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n", ("```lick example",)),),
    stettable=False,
)
