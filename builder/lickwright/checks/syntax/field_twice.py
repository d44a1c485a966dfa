"""A field, a shape or a change that is given twice.

Why it matters: a lick has one key and one tempo, a letter names one shape, and the sound at an address is
changed to one other; the first is taken, and the second, perhaps the later thought, is lost.

What to do: take out the one that is out of date; give a second shape another letter; a change of the next
sound has the next address.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source

RULE = Rule(
    id="syntax/field-twice",
    title="A field, a shape or a change given twice",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, A lick, Fields"),
    good=(Example("tempo: 100\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4"),),
    bad=(Example("tempo: 100\ntempo: 120\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4", ("tempo",)),),
    stettable=False,
)
