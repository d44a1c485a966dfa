"""A tuning written from the highest string.

Why it matters: strings are written from the lowest; the other way round every fret sounds on the wrong
string.

What to do: turn the row round; if the guitar is really strung so, let the finding stand.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/tuning-order",
    title="A tuning written from the highest string",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 8, The course: lowest string first"),
    good=(Example("tuning: E2 A2 D3 G3 B3 E4\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("tuning: E4 B3 G3 D3 A2 E2\n\nN.C. | 5:0 - - - 4:0 - - -", ("E4 B3 G3 D3 A2 E2",)),),
)
