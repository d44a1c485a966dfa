"""An open string asked to do what only a fretted one can.

It cannot be bent (behind the nut it can: ``nb``), slid from or to, or shaken by a finger that is
not there.

Why it matters: there is no finger on the string; the sign belongs to another note, or the fret is
a slip.

What to do: mend the fret, or take the sign off.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.model.slots import SLIDES
from lickwright.model.strike import BendKind, Fretted, Harmonic, Late


def run(subject: Subject) -> Iterator[Finding]:
    """Look at open strings, then at slides that begin or end on one."""
    for written in subject.tones:
        asked = _asked(written)
        if asked:
            yield subject.report(
                RULE,
                f"the open string {written.tone.string} cannot be {asked}: no finger is on it",
                written.tone.span,
                written.sound.address,
                help="Fret the note on another string, or take the sign off",
            )
    for lead in subject.leads:
        if lead.kind in SLIDES and 0 in (lead.before.fret, lead.after.fret):
            from_open = lead.before.fret == 0
            yield subject.report(
                RULE,
                f"a slide {'from' if from_open else 'to'} the open string {lead.after.string}:"
                " a finger has to stay on the string all the way",
                lead.span,
                lead.address,
                help="Write h for a hammer-on" if from_open else "Write p for a pull-off",
            )


def _asked(written: Written) -> str:
    tone, sound = written.tone, written.sound
    if tone.fret != 0 or not isinstance(tone.head, Fretted | Late | Harmonic):
        return ""
    if any(bend.kind is not BendKind.NUT for bend in tone.bends) and not _let_down(written):
        return "bent"
    if isinstance(tone.head, Harmonic):  # it may be shaken by the neck
        return ""
    alone = all(other.fret == 0 for other in sound.tones)
    if alone and (sound.slide_in or sound.slide_out):
        return "slid into" if sound.slide_in else "slid out of"
    if tone.vibrato and not tone.bends:
        return "shaken"
    return ""


def _let_down(written: Written) -> bool:
    """A release after a bend behind the nut."""
    kinds = {bend.kind for bend in written.tone.bends}
    return BendKind.UP not in kinds and BendKind.PRE not in kinds


RULE = Rule(
    id="hands/open-string",
    title="An open string bent, slid or shaken",
    severity=Severity.ERROR,
    source=Source("common practice", "Only a fretted string can be bent, slid or shaken by a finger"),
    good=(
        Example("A | 2:0 - 2:2 - 3:2 - - -"),
        Example("A | 2:3b5 - 2:2 - 3:2~ - - -"),
        Example("A | 2:0nb2 - 2:2 - 3:2 - - -"),
    ),
    bad=(
        Example("A | 2:0b2 - 2:2 - 3:2 - - -", marks=("2:0b2",)),
        Example("A | 2:2 - s 2:0 - 3:2 - - -", marks=("2:0",)),
        Example("A | 3:2 - - - 1:0~ - - -", marks=("1:0~",)),
    ),
    run=run,
)
