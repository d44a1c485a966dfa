"""A stroke against the swing of the hand, in a lick that claims pendulum picking.

With ``picking: pendulum`` the hand goes down and up in turn at the shortest even value of the bar, whether
it strikes or not: down on the even places, up on the odd ones. Tuplets alternate and are left alone; so are
meters of an odd number of eighths, where the swing is turned round at every bar line. In compound meters
the hand may begin each beat with a downstroke. A hand that swings in sixteenths through the lick need not
change its pace for a bar of eighths: a bar that follows the shortest value of the whole lick is left alone.

Why it matters: the swing is what keeps the time. A stroke against it has to be stopped for and started
again.

What to do: mend the stroke, or take the claim back.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.counting import place_in_bar
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strokes import NAMES, list_against_swing
from lickwright.checks.subject import Subject


def run(subject: Subject) -> Iterator[Finding]:
    """Hold every stroke that the row gives against the swing."""
    music = subject.piece.music
    if music.picking.style != "pendulum" or subject.piece.kind == "chorus":
        return
    for slip in list_against_swing(music):
        stroke = slip.stroke
        where = place_in_bar(stroke.bar, stroke.sound.onset)
        yield subject.report(
            RULE,
            f"{NAMES[slip.given]} on {where} goes against the swing of the hand: the lick claims pendulum"
            f" picking, {NAMES[slip.wanted]} was expected"
            + (f"; so do the {slip.more} strokes after it" if slip.more else ""),
            stroke.span,
            stroke.sound.address,
            help=f"Write {slip.wanted}, or take the claim back",
        )


RULE = Rule(
    id="picking/pendulum",
    title="A stroke against the swing of the hand under a claim of pendulum picking",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 2, Fields: picking: pendulum"),
    good=(
        Example("picking: pendulum\n\nA7 | 5:0 - 4:2 4:4 3:2 4:4 - 5:4\n  rh | d d u d u u"),
        Example(
            "picking: pendulum\nstep: 1/16\nmeter: 2/4\n\nA7 | 5:0 - 4:2 4:4 3:2 - 4:2 -\n  rh | d d u d d"
        ),
        Example(
            "picking: pendulum\nstep: 1/16\nmeter: 2/4\n\n"
            "A7 | 5:0 5:4 4:2 4:4 3:2 - 4:2 -\n  rh | d u d u d d\n"
            "   | 3:2 - 4:4 - 4:2 - - -\n  rh | d d d"
        ),
    ),
    bad=(
        Example("picking: pendulum\n\nA7 | 5:0 - 4:2 4:4 3:2 4:4 - 5:4\n  rh | d d u d u d", marks=("d",)),
        Example("picking: pendulum\n\nA7 | 5:0 - 4:2 4:4 3:2 - 5:4 -\n  rh | d d u u d", marks=("u",)),
    ),
    run=run,
)
