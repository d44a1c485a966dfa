"""A stet that matches no finding.

The rule it names finds nothing there, there is no such rule, or the finding is of the kind that cannot stand
because it leaves no music to play.

Why it matters: a stet that stays behind when its finding is gone would hide the next one.

What to do: take the line out, or mend its rule or address.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="stet/unused",
    title="A stet with nothing to let stand",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 6: a stet that matches nothing is itself a finding"),
    good=(Example('stet: harmony/unexplained 1.1 "the clash is the point"\n\nA | 2:3 - - - 3:2 - - -'),),
    bad=(
        Example(
            'stet: harmony/unexplained 1.1 "the clash is the point"\n\nA | 2:2 - - - 3:2 - - -',
            marks=('harmony/unexplained 1.1 "the clash is the point"',),
        ),
        Example(
            'stet: harmony/unexplaned 1.1 "the clash is the point"\n\nA | 2:2 - - - 3:2 - - -',
            marks=('harmony/unexplaned 1.1 "the clash is the point"',),
        ),
    ),
    stettable=False,
)
