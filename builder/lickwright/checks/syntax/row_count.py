"""A row has not as many entries as its bar has sounds.

Why it matters: from the first entry that is missing, everything is said of the wrong note.

What to do: count them: a held sound, a rest and a grace note have no entry; `*` says nothing of a sound.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/row-count",
    title="A row has not as many entries as its bar has sounds",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Rows"),
    good=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2 4"),),
    bad=(Example("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  lh | 0 4 2 4 2 4 2", ("0 4 2 4 2 4 2",)),),
    stettable=False,
)
