"""A fence whose first word is nearly a block kind: one letter off, or in another case.

Why it matters: such a block stays an ordinary code block: nothing of it is engraved, sounded or proofed.

What to do: take the kind as it is written in the author's guide.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/block-kind",
    title="The first word of a fence is nearly a block kind",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 1, Blocks"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(Example("```lik example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```", ("lik",)),),
    stettable=False,
)
