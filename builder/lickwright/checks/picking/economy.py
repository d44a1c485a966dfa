"""A stroke away from the string that comes next, in a lick that claims economy picking.

With ``picking: economy`` the pick goes on the way it moves: to the next higher string with a downstroke,
to the next lower one with an upstroke; on one string down and up take turns. A string that is skipped, and
what follows a slur or a rest, are left alone.

Why it matters: the sweep is the whole point of the claim; a stroke back over the string is the long way.

What to do: mend the stroke, or take the claim back.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strokes import NAMES, PickStroke, list_runs
from lickwright.checks.subject import Subject
from lickwright.terms.strokes import OTHER


def run(subject: Subject) -> Iterator[Finding]:
    """Look at each two single notes that are picked one after the other."""
    music = subject.piece.music
    if music.picking.style != "economy" or subject.piece.kind == "chorus":
        return
    for strokes in list_runs(music):
        for before, after in pairwise(strokes):
            wanted = _wanted(before, after)
            if wanted is None or after.given in (None, wanted):
                continue
            given = OTHER[wanted]
            same = before.sound.tones[0].string == after.sound.tones[0].string
            higher = after.sound.tones[0].string < before.sound.tones[0].string
            what = (
                f"{NAMES[given]} after {NAMES[given]} on one string"
                if same
                else f"{NAMES[given]} to the {'higher' if higher else 'lower'} string"
            )
            yield subject.report(
                RULE,
                f"{what}: the lick claims economy picking, {NAMES[wanted]} was expected",
                after.span,
                after.sound.address,
                help=f"Write {wanted}, or take the claim back",
            )


def _wanted(before: PickStroke, after: PickStroke) -> str | None:
    """The stroke that economy asks for; None where it leaves the choice."""
    one, other = before.sound.tones, after.sound.tones
    if len(one) > 1 or len(other) > 1 or after.sound.grace or before.given is None:
        return None
    if before.at + before.sound.duration != after.at:
        return None
    strings = one[0].string - other[0].string
    if strings == 0:
        return OTHER[before.given]
    if abs(strings) > 1:
        return None
    return "d" if strings > 0 else "u"


RULE = Rule(
    id="picking/economy",
    title="A stroke back over the string under a claim of economy picking",
    severity=Severity.QUERY,
    source=Source(
        "common practice", "Economy picking: a change of string goes on in the direction of the stroke"
    ),
    good=(
        Example("picking: economy\n\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n  rh | d u d u d u d u"),
        Example("picking: economy\n\nA7 | 4:2 4:4 4:5 3:2 2:2 - - -\n  rh | d u d d d"),
    ),
    bad=(
        Example("picking: economy\n\nA7 | 4:2 4:4 4:5 3:2 2:2 - - -\n  rh | d u d d u", marks=("u",)),
        Example("picking: economy\n\nA7 | 4:2 4:4 4:5 3:2 - - - -\n  rh | d d u d", marks=("d",)),
    ),
    run=run,
)
