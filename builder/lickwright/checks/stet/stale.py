"""A sealed stet for something that has changed since.

The seal is a short mark of what the rule judged: the bar's music; for a rule of speed the tempo and the level
of the course, too, for one of the prose the sentence, and the thresholds that the course sets for the rule.
When that changes, or a query has become an error, the reason that was given may not hold any more; the
finding counts again until the stet is sealed anew.

Why it matters: what the author let stand was this bar at this tempo, or these words, not the rule.

What to do: listen or read again; then write the seal that the finding names, or take the line out.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="stet/stale",
    title="A stet for what has changed since",
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
