"""A late bend that does not go up, or a release that does not come down.

A bend goes up from where the string is. A release comes down to a bent string, as far as the stopped fret
and no further.

Why it matters: the finger can only push a string up and let down what it has pushed; below the stopped
fret there is no pitch.

What to do: mend the target: the number is the fret whose pitch is reached.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="hands/late-bend-direction",
    title="A late bend that does not go up, or a release that does not come down",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Slots"),
    good=(
        Example("A7 | 3:7 3:b9 3:r8 3:r7 2:5 - 3:6 -"),
        Example("A7 | ring[ 3:7 2:5 3:b9 - 3:r7 - ] 3:6 -"),
    ),
    bad=(
        Example("A7 | 3:7 - 3:b6 - 2:5 - 3:6 -", ("3:b6",)),
        Example("A7 | 3:6 - 3:r5 - 2:5 - 3:6 -", ("3:r5",)),
        Example("A7 | 3:7b9 - 3:r6 - 2:5 - 3:6 -", ("3:r6",)),
    ),
    stettable=False,
)
