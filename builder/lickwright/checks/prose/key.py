"""A key that the words name and the lick is not in.

``up three frets and you are in C`` is held against the key that the move makes of the lick's.

Why it matters: the student who looks for the key on the neck looks in the wrong place.

What to do: mend the words, or the lick's ``key``.
"""

from __future__ import annotations

from fractions import Fraction

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.moved import Move, read_move
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_midi
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.key import MODES, Key


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare tonic and mode; where no mode is said, the tonic."""
    said = claim.terms[0].value
    assert isinstance(said, Key)  # the kind of claim says so
    key = notes.subject.piece.music.key
    words = claim.terms[0].text.casefold()
    move = None if claim.inside else read_move(claim.link.passage.text[: claim.terms[0].start])
    if move is not None:
        return _moved(claim, notes, move)
    moded = any(mode in words for mode in MODES)
    same = said.tonic.semitone == key.tonic.semitone and (
        not moded or said.is_minor_like == key.is_minor_like
    )
    if same or any(
        chord.root.semitone == said.tonic.semitone for chord in notes.harmony if notes.at is not None
    ):
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and the lick is in {key.display}",
        claim.terms[0],
        help=f"Write {key.display}, or mend the key of the lick",
    )


def _moved(claim: Claim, notes: Pointed, move: Move) -> Verdict:
    """``up three frets and you are in C``: the key that comes of moving the lick."""
    said = claim.terms[0].value
    assert isinstance(said, Key)  # the kind of claim says so
    key = notes.subject.piece.music.key
    tonics = [(key.tonic.semitone + size) % 12 for size in move.sizes]
    if said.tonic.semitone in tonics:
        return HELD
    by = claim.link.passage.text[move.start : move.end]
    real = say_midi(Fraction(tonics[0]), notes)
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {by} from {key.display} is {real}",
        claim.terms[0],
        help=f"Write {real}, or mend how far it is moved",
    )


RULE = Rule(
    id="prose/key",
    title="A key that the words name and the lick is not in",
    severity=Severity.ERROR,
    source=Source("common practice", "One key, one name"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n```\n\n[A lick in the key of A](lick:example)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n```\n\n[A lick in the key of D](lick:example).",
            ("in the key of D",),
        ),
    ),
    survey=tell("key", Severity.ERROR),
)
