"""A second bar on the same line.

Why it matters: one bar a line, its chord in the margin: so every bar has one place to be read and to be
mended.

What to do: begin a new line.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/second-bar",
    title="A second bar on the same line",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Lines"),
    good=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -\nA | 3:2 - 4:2 - 5:4 - 5:0 -"),),
    bad=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 - | 3:2 - 4:2 - 5:4 - 5:0 -", ("|",)),),
    stettable=False,
)
