"""Brackets and groups nested deeper than sixteen.

Why it matters: no reader can follow it, and no printed page shows it.

What to do: take some of them out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/nesting",
    title="Brackets and groups nested too deep",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Brackets"),
    good=(Example("A | (4:2 3:2)/2 2:2 - 3:2 - - -"),),
    bad=(Example("A | " + "(" * 17 + "4:2 3:2" + " 4:2)" * 17 + " 4:2 - 2:2 - 3:2 - -", ("(",)),),
    stettable=False,
)
