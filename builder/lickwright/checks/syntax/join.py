"""A hammer-on, pull-off or slide that does not stand between two sounds.

Why it matters: a join leads from one sound to the next on the same string; beside a rest or at the edge
there is nothing to lead to.

What to do: move it between the two sounds, after the holds of the first.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/join",
    title="A hammer-on, pull-off or slide that does not stand between two sounds",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Joins"),
    good=(Example("A7 | 3:2 - h 3:4 - 4:2 - 5:4 -"),),
    bad=(
        Example("A7 | 3:2 - . h 3:4 4:2 - 5:4 -", ("h",)),
        Example("A7 | 5:0 - 5:4 - 4:2 - 3:2 - h", ("h",)),
    ),
    stettable=False,
)
