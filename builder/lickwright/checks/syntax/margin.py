"""A margin that cannot be read.

The margin holds, in this order, the meter, the repeat sign, the ending and the chords of the bar, of which
each may be left out.

Why it matters: without its meter the bar cannot be added up, without its ending the repeat cannot be
unfolded, and the band has no chord to play from here on.

What to do: put what is there into that order; the finding marks the word that fits nowhere.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/margin",
    title="A margin that cannot be read",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("2/4 A7 | 5:0 5:4 4:2 5:4"),),
    bad=(Example("17/4 A7 | 5:0 - 5:4 - 4:2 - 5:4 -", ("17/4",)),),
    stettable=False,
)
