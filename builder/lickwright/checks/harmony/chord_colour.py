"""A margin and a progression that differ only in the chord's extension: A7 against A9.

Why it matters: it may be meant; then the student hears a colour that the page does not name.

What to do: make them agree, or let it stand.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="harmony/chord-colour",
    title="A margin and a progression that differ in the chord's extension",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 2, A lick, Margins"),
    good=(Example("over: A7\n\nA7 | 5:0 - 5:4 - 4:2 - 3:2 -"),),
    bad=(Example("over: A9\n\nA7 | 5:0 - 5:4 - 4:2 - 3:2 -", ("A7",)),),
)
