"""A lick of a chorus that stands over another chord than it was written for.

Why it matters: in the chorus the band plays the progression, and the same notes mean something else there.
The notes are judged against the progression's chords; this only says where to listen.

What to do: play the lick in bars with its own chords, or vary it to fit.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

_GRID = "```progression changes\nA7 | D7\n```\n\n"
_LICK = "```lick {name}\n{chord} | 5:0 5:4 4:2 4:4 3:2 - - -\n```\n\n"

RULE = Rule(
    id="harmony/chorus-chord",
    title="A lick of a chorus that stands over another chord than it was written for",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 3, Progressions, choruses, excerpts"),
    good=(
        Example(
            _GRID
            + _LICK.format(name="example", chord="A7")
            + "```chorus whole\nover: changes\nlicks: example rest 1\n```"
        ),
    ),
    bad=(
        Example(
            _GRID
            + _LICK.format(name="example", chord="A7")
            + "```chorus whole\nover: changes\nlicks: rest 1 example\n```",
            ("example",),
        ),
    ),
    stettable=False,
)
