"""Grace notes that do not lead straight to a sound of their bar.

Why it matters: they are played just before a sound; beside a rest or a hold they have nothing to adorn.

What to do: write them straight before the sound.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/grace",
    title="Grace notes that do not lead straight to a sound of their bar",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Grace notes"),
    good=(Example("A7 | g(3:1) 3:2 - 4:2 - 5:4 - 4:2 -"),),
    bad=(Example("A7 | 3:2 g(3:1) - 4:2 - 5:4 - 4:2 -", ("g(3:1)",)),),
    stettable=False,
)
