"""A block lacks the name it needs, has one it does not take, or one that is no name.

Names are lower-case letters, digits and hyphens.

Why it matters: the name is how a chorus, a variation and a link find the music.

What to do: write the name after the kind, as in `lick porch-step`.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/block-name",
    title="A block lacks the name it needs, or has one it does not take",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 1, Blocks"),
    good=(Example("```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```"),),
    bad=(
        Example("```lick\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```", ("lick",)),
        Example("```lick Porch_Step\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```", ("Porch_Step",)),
    ),
    stettable=False,
)
