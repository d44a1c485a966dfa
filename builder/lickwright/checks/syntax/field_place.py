"""A field after the first bar.

Why it matters: fields hold for the whole lick; one between bars looks as if it held from there on.

What to do: move it up to the other fields.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/field-place",
    title="A field after the first bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Lines"),
    good=(Example("key: A major\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\nkey: A major", ("key",)),),
    stettable=False,
)
