"""A finger that is needed elsewhere while its note is to sound on.

In a let-ring bracket, under a slur on another string and in two voices a note is held by its finger until its
string is used again. The `lh` row takes that finger away to another fret.

Why it matters: the note stops when the finger leaves, though the page says that it rings.

What to do: give the later note another finger, close the bracket, or end the held note before.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import Held, overlap
from lickwright.checks.subject import Subject
from lickwright.checks.wording import note_text
from lickwright.findings import Label
from lickwright.instrument.hand import FINGERS
from lickwright.model.slots import SLIDES
from lickwright.model.strike import Fretted, Hammered


def run(subject: Subject) -> Iterator[Finding]:
    """Follow each finger that the row names."""
    if not any(written.tone.finger for written in subject.tones) or not overlap(subject.piece.music):
        return
    holding: dict[str, list[Held]] = {}
    for held in subject.held:
        finger = held.tone.finger
        if finger not in FINGERS or not held.tone.fret or not isinstance(held.tone.head, Fretted | Hammered):
            continue
        before = [
            other
            for other in holding.get(finger, ())
            if other.end > held.start and other.tone.string != held.tone.string
        ]
        taken = next((o for o in before if o.start < held.start and o.tone.fret != held.tone.fret), None)
        holding[finger] = [held] if taken is not None else [*before, held]
        if taken is None:
            continue
        moved = "slides" if held.tone.link in SLIDES else "is needed"
        yield subject.report(
            RULE,
            f"finger {finger} {moved} at {note_text(held.tone)} while it holds {note_text(taken.tone)},"
            " which is to sound on",
            held.tone.span,
            held.sound.address,
            labels=(Label(taken.tone.span, "held from here"),),
            help="Give the later note another finger, or let the first one end before it",
        )


RULE = Rule(
    id="hands/ringing-finger",
    title="A finger needed elsewhere while its note is to ring",
    severity=Severity.QUERY,
    source=Source("common practice", "A fretted note sounds as long as its finger stays"),
    good=(
        Example("A | ring[4:2 3:2 2:2 1:0] 5:4 - 5:0 -\n  lh | 1 1 1 0 3 0"),
        Example("A | 4:2 3:2 2:2 1:0 5:4 - 5:0 -\n  lh | 1 1 1 0 1 0"),
    ),
    bad=(
        Example("A | ring[4:2 - 2:5 1:5] 5:4 - 5:0 -\n  lh | 1 1 1 3 0", marks=("2:5",)),
        Example(
            "A | 1:5 - 1:3 1:5  2:5 - 2:2 -\n   lh | 4 2 4 4 1\n   low | 5:4 - - - 5:0 - - -\n   lh | 2 0",
            marks=("1:3",),
        ),
    ),
    run=run,
)
