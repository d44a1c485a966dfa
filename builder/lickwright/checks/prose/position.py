"""A position that the words name and the notes do not lie in.

In a position the first finger minds its fret: from one fret below it to four above it the notes belong to
it, open strings to any. A few may lie outside.

Why it matters: the student sets the hand down where the words say, and the notes are somewhere else.

What to do: find out which is right, the words or the frets.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_ordinal, say_place
from lickwright.checks.rule import Example, Rule, Severity, Source

BELOW, ABOVE = 1, 4
"""Frets that belong to a position on either side of the first finger's (common practice)."""
OUTSIDE = "prose-position"


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Count the fretted notes that lie outside the position."""
    position = claim.terms[0].value
    assert isinstance(position, int)  # the kind of claim says so
    frets = [tone.fret for _, tone in notes.tones if tone.fret]
    if not frets:
        return HELD if position == 0 else Unresolved("no note of it is fretted")
    low = max(position - BELOW, 1)
    outside = sum(not low <= fret <= position + ABOVE for fret in frets)
    if outside <= notes.subject.limits[OUTSIDE] * len(frets):
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} lies between frets"
        f" {min(frets)} and {max(frets)}"
        if min(frets) < max(frets)
        else f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is at fret {frets[0]}",
        claim.terms[0],
        help=f"The lowest fret is {min(frets)}: write {say_ordinal(min(frets))} position, or how it moves",
    )


RULE = Rule(
    id="prose/position",
    title="A position that the words name and the notes do not lie in",
    severity=Severity.QUERY,
    source=Source(
        "common practice", "Positions by the first finger's fret; the share outside is our own threshold"
    ),
    good=(
        Example(
            "```lick example\nA | 4:7 - 3:6 - 2:5 - 1:5 -\n```\n\n"
            "[The lick](lick:example) lies in fifth position."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 2:10 - 2:12 - 1:9 - 1:12 -\n```\n\n"
            "Play [all four in fifth position](lick:example@1).",
            ("fifth position",),
        ),
    ),
    survey=tell("position", Severity.QUERY),
)
