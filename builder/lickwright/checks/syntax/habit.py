"""A form from another way of typing music.

Why it matters: nothing is guessed: `5h7` could be meant on any string.

What to do: take over the right form, which the finding gives.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/habit",
    title="A form from another way of typing music",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Typed habits"),
    good=(Example("A7 | 3:2 h 3:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(
        Example("A7 | 3:2h3:4 4:2 4:4 3:2 4:4 4:2 5:4", ("3:2h3:4",)),
        Example("A7 | 3:2 H 3:4 4:2 4:4 3:2 4:4 4:2 5:4", ("H",)),
    ),
    stettable=False,
)
