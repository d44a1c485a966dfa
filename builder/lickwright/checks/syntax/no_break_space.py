"""A no-break space where a plain blank is meant.

Why it matters: it looks like a blank and is none; it usually came in with a paste.

What to do: type a blank.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/no-break-space",
    title="A no-break space where a plain blank is meant",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 2, A lick, Lines"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", (" ",)),),
    stettable=False,
)
