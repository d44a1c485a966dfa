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
from functools import cache

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strokes import (
    NAMES,
    OTHER,
    Run,
    find_out_of_turn,
    find_swing,
    is_given,
    list_runs,
)
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Take the strokes of each stretch in turn, then hold them against the swing of the hand."""
    music = subject.piece.music
    if music.picking.style != "alternate" or subject.piece.kind == "chorus":
        return
    runs = list_runs(music)
    if not is_given(runs):
        return
    swing = cache(lambda: find_swing(music))
    for number, strokes in enumerate(runs):
        first = music.picking.first if number == 0 else None
        out, swung = find_out_of_turn(strokes, swing, first)
        for place, count in out:
            yield _finding(subject, strokes, place, count, swung=swung)


def _finding(subject: Subject, strokes: Run, place: int, count: int, *, swung: bool) -> Finding:
    stroke = strokes[place]
    given = stroke.given or "d"
    if swung:
        said = f"{NAMES[given]} against the swing of the hand"
        claim = f"the lick claims alternate picking, {NAMES[OTHER[given]]} was expected"
    elif place and strokes[place - 1].given is None:
        said = f"{NAMES[given]} out of turn, with the strokes before it filled in"
        claim = f"the lick claims alternate picking, {NAMES[OTHER[given]]} was expected"
    elif place:
        said = f"{NAMES[given]} after {NAMES[given]}"
        claim = f"the lick claims alternate picking, {NAMES[OTHER[given]]} was expected"
    else:
        said = f"the lick begins with {NAMES[given]}"
        claim = f"its claim is alternate, {'down' if given == 'u' else 'up'} first"
    more = count - 1 if count > 2 else 0
    return subject.report(
        RULE,
        f"{said}: {claim}" + (f"; {more} more follow out of turn" if more else ""),
        stroke.span,
        stroke.sound.address,
        help=f"Write {OTHER[given]}, or look for a stroke that was left out before it",
    )


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
