"""A chord named by its degree in the key, and another one is in force.

``the V chord``, ``the four chord`` are held against the root of the chords under the link.

Why it matters: the numeral is what carries the lick into another key.

What to do: count from the tonic again.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_ordinal
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key

_ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare the root of each chord with the degree of the key."""
    number = claim.terms[0].value
    assert isinstance(number, int)  # the kind of claim says so
    key = notes.subject.piece.music.key
    harmony = notes.harmony or tuple(c for h in notes.heard for c in notes.chords(h))
    if not harmony:
        return Unresolved("no chord is in force there")
    if claim.link.passage.text.startswith(" of", claim.terms[0].end):
        return Unresolved("it counts from another chord")
    if number <= 7 and any(chord.root.semitone == key.scale[number - 1].semitone for chord in harmony):
        return HELD
    names = list(dict.fromkeys(chord.display for chord in harmony))
    meant = (
        f": the {say_ordinal(number)} of {key.display} is {key.scale[number - 1].spoken}"
        if number <= 7
        else ""
    )
    return Differs(
        f"the words say “{claim.terms[0].text}”, and the chord there is {say_list(names)}{meant}",
        claim.terms[0],
        help=_advice(harmony[0], key),
    )


def _advice(chord: Chord, key: Key) -> str:
    """The numeral of the chord in force, where it stands on a degree of the key."""
    number = next((n for n, note in enumerate(key.scale) if note.semitone == chord.root.semitone), None)
    if number is None:
        return f"Write {chord.display}, or mend the chord in the margin"
    return f"Write “the {_ROMAN[number]} chord”, or mend the chord in the margin"


RULE = Rule(
    id="prose/numeral",
    title="A chord named by its degree, and another one is in force",
    severity=Severity.ERROR,
    source=Source("common practice", "Chords numbered from the tonic"),
    good=(
        Example("```lick example\nD | 4:0 - 4:4 - 3:2 - 4:4 -\n```\n\nOver [the IV chord](lick:example@1)."),
    ),
    bad=(
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 4:4 -\n```\n\nOver [the V chord](lick:example@1).",
            ("V chord",),
        ),
    ),
    survey=tell("numeral", Severity.ERROR),
)
