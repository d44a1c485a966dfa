"""A stroke of the picking hand on a sound that is not struck.

A hammer-on, a pull-off, a slide written ``s``, a late bend and a string hammered from nowhere sound without
the picking hand; the ``rh`` row has ``*`` for them. The stroke of a grace note that leads into the sound
stands in the sound's entry, and is left alone.

Why it matters: whoever follows the strokes strikes a note that was to be slurred, and every stroke after it
is turned round.

What to do: write ``*``; or, when the note is to be struck, take the join out (a slide struck at both ends
is ``s!``).
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.findings import Edit, Fix
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Hammered, Late

_HOW = {JoinKind.HAMMER: "hammered", JoinKind.PULL: "pulled off", JoinKind.SLIDE: "slid to"}


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every sound that has an entry in the rh row."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    for written in subject.tones:
        sound = written.sound
        if written.index or sound.grace or not (sound.stroke or any(tone.hand for tone in sound.tones)):
            continue
        how = _how(written)
        if not how:
            continue
        entry = written.entry("rh")
        stroke = sound.stroke or "".join(tone.hand or "*" for tone in sound.tones)
        fix = Fix("write *", (Edit(entry, "*"),)) if entry is not None else None
        yield subject.report(
            RULE,
            f"the rh row has {stroke} for a sound that is {how}: the picking hand does not strike it",
            entry or sound.span,
            sound.address,
            help="Write * under a sound that is not struck",
            fix=fix,
        )


def _how(written: Written) -> str:
    """In what way a sound begins without a stroke; empty where it has one."""
    tones = written.sound.tones
    if any(tone.struck and not isinstance(tone.head, Hammered) for tone in tones):
        return ""
    if any(isinstance(tone.head, Late) for tone in tones):
        return "bent while it sounds"
    if any(isinstance(tone.head, Hammered) for tone in tones):
        return "hammered"
    links = (tone.link for tone in tones if tone.link is not None)
    return next((_HOW[link] for link in links if link in _HOW), "")


RULE = Rule(
    id="picking/stroke-on-slur",
    title="A stroke on a sound that is not struck",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Rows: a sound that is not struck takes *"),
    good=(
        Example("A7 | 4:2 h 4:4 - p 4:2 5:0 - - -\n  rh | d * * u"),
        Example("A7 | g(5:2 5:3) 5:4 - 4:2 - 3:2 - - -\n  rh | d u d"),
    ),
    bad=(
        Example("A7 | 4:2 h 4:4 - 4:2 5:0 - - -\n  rh | d u d u", marks=("u",)),
        Example("A7 | 3:7 - 3:b9 - 2:5 - - -\n  rh | d u d", marks=("u",)),
    ),
    run=run,
)
