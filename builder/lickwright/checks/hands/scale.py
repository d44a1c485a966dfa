"""A scale that cannot be fingered as it is asked for.

Why it matters: there is nothing to show or to hear.

What to do: let it begin and end on notes of the scale that lie on the neck, in reach of the position
that is asked for; or leave the position, or the notes a string, to the builder.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source


def _scale(fields: str) -> str:
    return f"# A scale\n\n```scale g\n{fields}\n```\n"


RULE = Rule(
    id="hands/scale",
    title="A scale that cannot be fingered as it is asked for",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 7, The rest"),
    good=(
        Example(_scale("scale: G major\nfrom: 6:3 to 1:3")),
        Example(_scale("scale: G major\nfrom: 6:3 to 1:7\nnotes a string: 3")),
    ),
    bad=(
        Example(_scale("scale: G major\nfrom: 6:4 to 1:3"), ("6:4 to 1:3",)),
        Example(_scale("scale: G major\nfrom: 6:3 to 6:3"), ("6:3 to 6:3",)),
        Example(_scale("scale: G major\nfrom: 6:3 to 1:3\nposition: 9"), ("9",)),
    ),
    stettable=False,
)
