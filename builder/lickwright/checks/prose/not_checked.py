"""Words about notes that could not be held against them.

They speak of something that the notes of the link cannot tell: a finger where no ``lh`` row is written, a
stroke where no ``rh`` row is, an interval of one note. Nothing is guessed.

Why it matters: what has not been checked must be read by somebody.

What to do: write the row, or read the words once more yourself.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.claims.ledger import list_unresolved
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey

_HELP = "Read it over yourself; what the words of a link say of its own notes is checked"


def run(survey: Survey) -> Iterator[Finding]:
    """Report what could not be judged, with the reason."""
    for one, why in list_unresolved(survey):
        claim = one.claim
        address = "" if one.notes.at is None else str(one.notes.address)
        message = f"“{claim.words}” has not been checked: {why}"
        yield Finding(
            RULE.id, RULE.severity, message, claim.span(), (), _HELP, None, claim.link.target, address
        )


RULE = Rule(
    id="prose/not-checked",
    title="Words about notes that have not been checked",
    severity=Severity.NOTE,
    source=Source("language contract", "Section 5: what cannot be resolved is said, never guessed"),
    good=(
        Example(
            "```lick example\nA | 3:2 - 2:2 - 1:5 - - -\n  rh | d d d\n```\n\n"
            "[A downstroke](lick:example@1.2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 3:2 - 2:2 - 1:5 - - -\n```\n\n[A downstroke](lick:example@1.2).",
            ("downstroke",),
        ),
    ),
    survey=run,
)
