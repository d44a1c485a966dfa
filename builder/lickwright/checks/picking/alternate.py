"""Strokes that do not take turns, in a lick that claims alternate picking.

With ``picking: alternate`` the struck sounds take a downstroke and an upstroke in turn. What is slurred
takes no stroke, and a sound for which the ``rh`` row says nothing is filled in first. After a rest of a
beat the hand may begin again. A stretch whose strokes all follow the steady swing of the hand (down on
the even places, up on the odd ones, slurs and rests counted) is alternate picking too, as some players
mean it: only where neither way of reading fits is anything said.

Why it matters: one stroke out of turn turns round every stroke after it, and the student practises the
lick the wrong way up.

What to do: mend the stroke, fill in the one that was left out, or take the claim back.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strokes import NAMES, Slip, list_out_of_turn
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Take the strokes of each stretch in turn, then hold them against the swing of the hand."""
    music = subject.piece.music
    if music.picking.style != "alternate" or subject.piece.kind == "chorus":
        return
    for slip in list_out_of_turn(music, music.picking.first):
        yield subject.report(
            RULE,
            _say(slip) + (f"; {slip.more} more follow out of turn" if slip.more else ""),
            slip.stroke.span,
            slip.stroke.sound.address,
            help=f"Write {slip.wanted}, or look for a stroke that was left out before it",
        )


def _say(slip: Slip) -> str:
    given = NAMES[slip.given]
    if not slip.swung and slip.before is None:
        first = "down" if slip.wanted == "d" else "up"
        return f"the lick begins with {given}: its claim is alternate, {first} first"
    if slip.swung:
        said = f"{given} against the swing of the hand"
    elif slip.before is not None and slip.before.given is None:
        said = f"{given} out of turn, with the strokes before it filled in"
    else:
        said = f"{given} after {given}"
    return f"{said}: the lick claims alternate picking, {NAMES[slip.wanted]} was expected"


RULE = Rule(
    id="picking/alternate",
    title="Strokes out of turn under a claim of alternate picking",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Fields: picking: alternate, the struck sounds alternate"),
    good=(
        Example(
            "picking: alternate, down first\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u d u d u d u"
        ),
        Example("picking: alternate\n\nA7 | 4:2 h 4:4 3:2 - 4:2 h 4:4 3:2 -\n  rh | d * d d * d"),
        Example("picking: alternate\n\nA7 | 5:0 5:4 4:2 4:4 3:2 . . 5:4\n  rh | d u d * d u"),
    ),
    bad=(
        Example(
            "picking: alternate\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u d d u d u d", marks=("d",)
        ),
        Example(
            "picking: alternate\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u u u d u d u", marks=("u",)
        ),
        Example(
            "picking: alternate, down first\n\nA7 | 5:0 5:4 4:2 4:4 3:2 - - -\n  rh | u d u d u", marks=("u",)
        ),
    ),
    run=run,
)
