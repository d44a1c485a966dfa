"""No empty line between the fields and the music.

Why it matters: the music is read all the same; the empty line helps the eye.

What to do: put one in.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/missing-blank-line",
    title="No empty line between the fields and the music",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 2, A lick, Lines"),
    good=(Example("key: A major\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("key: A major\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("",)),),
    stettable=False,
)
