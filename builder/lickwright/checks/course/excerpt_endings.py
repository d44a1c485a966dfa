"""An excerpt shows endings of one repeat in a row.

Why it matters: an excerpt without the whole repeat is played as it stands, and two endings one after the
other are never played so in the lick.

What to do: show the bars up to one ending, or from the `|:` on.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_MUSIC = (
    "```lick one\n"
    "A7 |: 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n"
    "1. A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4 :|\n"
    "2. A7 | 3:2 4:4 4:2 5:4 5:0 - - -\n"
    "```\n"
    "\n"
    "```excerpt\n"
    "of: one\n"
    "show: bars"
)

RULE = Rule(
    id="course/excerpt-endings",
    title="An excerpt shows endings of one repeat in a row",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 3, Progressions, choruses, excerpts"),
    good=(Example(f"{_MUSIC} 1-3\n```"), Example(f"{_MUSIC} 1-2\n```")),
    bad=(Example(f"{_MUSIC} 2-3\n```", ("bars 2-3",)),),
    stettable=False,
)
