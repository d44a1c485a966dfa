"""A finger that the words name and the rows do not.

Fingers of the fretting hand are held against the ``lh`` row, those of the picking hand against the ``rh``
row; a name that serves both hands (``the middle finger``) may be either.

Why it matters: the words and the digits under the staff send two fingers to one note.

What to do: make them agree.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_place
from lickwright.checks.claims.term import FingerName
from lickwright.checks.rule import Example, Rule, Severity, Source

_FRETS = {
    "0": "that the string is open",
    "1": "the first finger",
    "2": "the second finger",
    "3": "the third finger",
    "4": "the little finger",
    "T": "the thumb",
}
_PICKS = {"p": "the thumb", "i": "the index finger", "m": "the middle finger"}
_PICKS |= {"a": "the ring finger", "c": "the little finger"}
_SPOKEN = {"0": "open", "1": "finger 1", "2": "finger 2", "3": "finger 3", "4": "finger 4", "T": "the thumb"}


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for the finger in the rows of the notes."""
    said = claim.terms[0].value
    assert isinstance(said, FingerName)  # the kind of claim says so
    tones = [t for h in notes.heard for t in (*h.sound.tones, *(t for g in h.sound.grace for t in g.tones))]
    fretting = {tone.finger for tone in tones if tone.finger is not None}
    picking = {tone.hand for tone in tones if tone.hand is not None}
    if said.fretting in fretting or (said.picking is not None and said.picking in picking):
        return HELD
    if not fretting and said.picking is not None and picking & set("pimac"):
        row = " and ".join(sorted(picking))
        place = say_place(notes)
        return Differs(
            f"the words say “{claim.terms[0].text}”, and the rh row at {place} says {row}",
            claim.terms[0],
            help=f"Write {_names(picking, _PICKS)}, or mend the rh row",
        )
    if not fretting:
        return Unresolved("no lh row says which finger it is")
    rows = say_list([_SPOKEN.get(finger, finger) for finger in sorted(fretting)])
    return Differs(
        f"the words say “{claim.terms[0].text}”, and the lh row at {say_place(notes)} says {rows}",
        claim.terms[0],
        help=f"Write {_names(fretting, _FRETS)}, or mend the lh row",
    )


def _names(signs: Collection[str], words: Mapping[str, str]) -> str:
    """The fingers of a row in words: ``the index finger``."""
    return say_list([words[sign] for sign in sorted(signs) if sign in words]) or "what the row says"


RULE = Rule(
    id="prose/finger",
    title="A finger that the words name and the rows do not",
    severity=Severity.QUERY,
    source=Source(
        "common practice", "Fingers 1 to 4 from the index to the little finger; p i m a c for the other hand"
    ),
    good=(
        Example(
            "```lick example\nA | 3:2 - 2:2 - 1:5 - - -\n  lh | 1 1 4\n```\n\n"
            "The little finger takes [A at the fifth fret](lick:example@1.3)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 3:2 - 2:2 - 1:5 - - -\n  lh | 1 1 4\n```\n\nReach for [A](lick:example@1.3)"
            " with the ring finger.",
            ("ring finger",),
        ),
    ),
    survey=tell("finger", Severity.QUERY),
)
