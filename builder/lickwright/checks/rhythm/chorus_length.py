"""A chorus that is not whole turns of its progression.

Why it matters: the band goes round its progression; a chorus that ends in the middle of it leaves the tune
hanging.

What to do: add a lick or rests, or take one out; let it stand where the band is meant to break off.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_MUSIC = (
    "```progression porch\n"
    "A7 | D7\n"
    "```\n"
    "\n"
    "```lick one\n"
    "A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
    "D7 | 4:0 4:4 3:2 4:4 2:3 - 3:2 -\n"
    "```\n"
    "\n"
    "```chorus first\n"
    "over: porch\n"
    "licks: one"
)

RULE = Rule(
    id="rhythm/chorus-length",
    title="A chorus that is not whole turns of its progression",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 3, Progressions, choruses, excerpts"),
    good=(Example(f"{_MUSIC}\n```"),),
    bad=(Example(f"{_MUSIC} rest 1\n```", ("one rest 1",)),),
)
