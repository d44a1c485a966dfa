"""A field names bars that the lick does not have.

Why it matters: a position or a claim that stands over no bar is held against nothing, and nobody notices.

What to do: name bars of the lick.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="course/field-bars",
    title="A field names bars that the lick does not have",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("position: 2 (bars 1)\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(
        Example(
            "position: 2 (bars 1-2)\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4",
            ("2 (bars 1-2)",),
        ),
    ),
    stettable=False,
)
