"""A scale that is to ring over the open strings, and does not.

Why it matters: where neighbours share a string the first is cut off by the second, and the scale is a
plain one; it is shown in plain position.

What to do: choose other ends, or a key with more open strings in it.
"""

from lickwright.checks.rule import Example, Rule, Severity, Source


def _scale(fields: str) -> str:
    return f"# A scale\n\n```scale ring\n{fields}\nopen strings: wherever diatonic\n```\n"


RULE = Rule(
    id="open-strings/scale",
    title="A scale that does not ring over the open strings",
    severity=Severity.NOTE,
    source=Source("own threshold", "One open string in four notes, one pair in four on one string"),
    good=(Example(_scale("scale: G major\nfrom: 6:3 to 1:3")),),
    bad=(Example(_scale("scale: F# major\nfrom: 6:2 to 1:2"), ("wherever diatonic",)),),
)
