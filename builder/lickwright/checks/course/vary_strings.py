"""A variation on a guitar that lacks strings of its base.

Why it matters: a sound on a string that is not there cannot be played, drawn or heard.

What to do: change those sounds, or name a tuning with as many strings as the base's.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_BASE = "```lick base\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n\n"

RULE = Rule(
    id="course/vary-strings",
    title="A variation on a guitar that lacks strings of its base",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 4, Variations"),
    good=(Example(_BASE + "```lick example\nvary: base\ntuning: D2 A2 D3 G3 B3 E4\n```"),),
    bad=(
        Example(
            _BASE + "```lick example\nvary: base\ntuning: G3 B3 D4 E4\n```",
            ("G3 B3 D4 E4",),
        ),
    ),
    stettable=False,
)
