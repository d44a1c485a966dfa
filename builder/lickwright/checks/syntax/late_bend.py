"""A late bend or release on a string that is not sounding.

Why it matters: a string can be bent later only while it sounds.

What to do: strike it first.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/late-bend",
    title="A late bend or release on a string that is not sounding",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Slots"),
    good=(Example("A7 | 3:7 - 3:b9 - 2:5 - 3:6 -"),),
    bad=(Example("A7 | 2:5 - 3:b9 - 2:5 - 3:6 -", ("3:b9",)),),
    stettable=False,
)
