"""An entry that its row does not know.

Why it matters: it says nothing of its sound.

What to do: write it as the table of rows has it; `*` where nothing is to be said.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-entry",
    title="An entry that its row does not know",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u d u d u d u"),),
    bad=(
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u d u d u d x", ("x",)),
        Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 r", ("r",)),
    ),
    stettable=False,
)
