"""A hold with nothing before it to lengthen.

Why it matters: a hold goes on with what sounds; at the very start nothing does.

What to do: write a note, or `.` for a rest.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/hold-at-start",
    title="A hold with nothing before it to lengthen",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Holds"),
    good=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -"),),
    bad=(Example("A | - 5:0 5:4 - 4:2 - 3:2 -", ("-",)),),
    stettable=False,
)
