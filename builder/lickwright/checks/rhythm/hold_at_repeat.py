"""A hold first in a repeated bar that two different sounds lead to.

Why it matters: the first time one note is held over, the second time another: no one tie can be printed.

What to do: strike the note again at the repeat.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="rhythm/hold-at-repeat",
    title="A hold after a repeat sign that two different sounds lead to",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Holds"),
    good=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -\nA |: - - 4:2 - 5:4 - 3:2 - :|"),),
    bad=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -\nA |: - - 4:2 - 5:4 - 5:0 - :|", ("-",)),),
    stettable=False,
)
