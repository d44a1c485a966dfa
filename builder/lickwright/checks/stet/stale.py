"""A sealed stet whose bar has changed since.

The seal is a short mark of the bar's music. When the bar changes, the reason that was given for it may not
hold any more; the finding counts again until the stet is sealed anew.

Why it matters: what the author let stand was this bar, not the rule.

What to do: listen again; then write the seal that the finding names, or take the line out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="stet/stale",
    title="A stet for music that has changed",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 6: a sealed stet goes stale when the bar changes"),
    good=(Example('stet: harmony/unexplained 1.1 "the clash is the point"\n\nA | 2:3 - - - 3:2 - - -'),),
    bad=(
        Example(
            'stet: harmony/unexplained 1.1 #0000 "the clash is the point"\n\nA | 2:3 - - - 3:2 - - -',
            marks=('harmony/unexplained 1.1 #0000 "the clash is the point"',),
        ),
    ),
    stettable=False,
)
