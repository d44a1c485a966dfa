"""An interval that the words name and no two notes make.

``sixths``, ``an octave`` are looked for between strings that sound together, between one note and the
next, and between the first note of the link and the last.

Why it matters: the student sets the fingers to the interval that is named.

What to do: count the half steps, or mend the word.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_notes, say_place
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.terms.intervals import SIZES


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for two notes at the distance."""
    sizes = claim.terms[0].value
    assert isinstance(sizes, tuple)  # the kind of claim says so
    if len(notes.tones) < 2 and not any(len(tone.path) > 1 for _, tone in notes.tones):
        return Unresolved("one note makes no interval")
    found = {abs(a - b) for a, b in _pairs(notes)}
    if found & {size for whole in sizes for size in (whole, whole + 12)}:
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is {say_notes(notes)}",
        claim.terms[0],
        help=_advice(found),
    )


def _advice(found: set[int]) -> str:
    """The intervals that are there, the smallest first."""
    names = [name for name, sizes in SIZES.items() if found & set(sizes)][:3]
    return (
        f"What is there: {say_list([f'{name}s' for name in names])}"
        if names
        else "Link two notes that make it"
    )


def _pairs(notes: Pointed) -> Iterator[tuple[int, int]]:
    for voice in notes.voices:
        pitches = [
            [int(p) for tone in heard.tones for p in tone.path if p.denominator == 1] for heard in voice
        ]
        for together in pitches:
            yield from combinations(together, 2)
        if all(len(together) > 1 for together in pitches):
            continue  # pairs all along: the interval is between their strings
        for one, two in pairwise(pitches):
            yield from ((a, b) for a in one for b in two)
        if pitches:
            yield from ((a, b) for a in pitches[0] for b in pitches[-1])


RULE = Rule(
    id="prose/interval",
    title="An interval that the words name and no two notes make",
    severity=Severity.QUERY,
    source=Source("common practice", "Intervals by letters and half steps"),
    good=(
        Example(
            "```lick example\nA | 3:6+1:5 - - - 3:2+1:2 - - -\n```\n\n[Two sixths](lick:example), and rest."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 3:6+1:5 - - - 3:2+1:2 - - -\n```\n\n[In tenths](lick:example).", ("tenths",)
        ),
    ),
    survey=tell("interval", Severity.QUERY),
)
