"""A bar that the words name and the link does not lead to.

Why it matters: the student looks at the bar that the words name, and hears another.

What to do: mend the number, or the address.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_place
from lickwright.checks.claims.term import Numbers
from lickwright.checks.rule import Example, Rule, Severity, Source


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare the bar with those of the link's address."""
    said = claim.terms[0].value
    assert isinstance(said, Numbers)  # the kind of claim says so
    at = notes.at
    if at is None or (at.first.bar <= said.last and said.first <= at.last.bar):
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and the link leads to {say_place(notes)}", claim.terms[0]
    )


RULE = Rule(
    id="prose/bar",
    title="A bar that the words name and the link does not lead to",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 5, Prose that points at notes"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n | 3:2 - 4:4 - 4:2 - 5:4 -\n```\n\n"
            "[Bar 2](lick:example@2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n | 3:2 - 4:4 - 4:2 - 5:4 -\n```\n\n"
            "[The end of bar 1](lick:example@2.4).",
            ("bar 1",),
        ),
    ),
    survey=tell("bar", Severity.QUERY),
)
