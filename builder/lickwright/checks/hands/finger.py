"""A finger that cannot be where the ``lh`` row puts it.

``0`` is the open string: it stands under no fretted note, and no finger stands under an open one. One
finger holds several strings at one fret (a barre), never two frets at once.

Why it matters: the row is what a beginner's hand follows; one entry that contradicts its note makes the
whole row doubtful.

What to do: mend the finger; where the fret has slipped, mend the fret.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import note_text
from lickwright.findings import Label
from lickwright.model.strike import Fretted, Hammered


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every fretted note with a finger, then at its fellows in the sound."""
    for written in subject.tones:
        tone = written.tone
        if tone.fret == 0 and tone.finger not in (None, "0") and isinstance(tone.head, Fretted):
            yield subject.report(
                RULE,
                f"the lh row has {tone.finger} for the open string {tone.string}: no finger is on it",
                tone.span,
                written.sound.address,
                labels=written.label("lh"),
                help="Write 0, or mend the fret",
            )
        if tone.finger is None or not tone.fret or not isinstance(tone.head, Fretted | Hammered):
            continue
        if tone.finger == "0":
            yield subject.report(
                RULE,
                f"the lh row has 0, the open string, for {note_text(tone)}, which is fretted",
                tone.span,
                written.sound.address,
                labels=written.label("lh"),
                help="Write the finger that holds it, or * for none said",
            )
            continue
        for other in written.sound.tones[: written.index]:
            if other.finger == tone.finger and other.fret and other.fret != tone.fret:
                yield subject.report(
                    RULE,
                    f"finger {tone.finger} is to hold frets {other.fret} and {tone.fret} at once",
                    tone.span,
                    written.sound.address,
                    labels=(Label(other.span, "the other note"), *written.label("lh")),
                    help="One finger bars several strings at one fret only",
                )
                break


RULE = Rule(
    id="hands/finger",
    title="A finger that cannot be where its row puts it",
    severity=Severity.ERROR,
    source=Source("common practice", "Left-hand fingering: 0 is the open string, a barre lies at one fret"),
    good=(Example("A | 5:0 - 4:2+3:2 - 2:2 - - -\n  lh | 0 11 2"),),
    bad=(
        Example("A | 5:0 - 4:2 - 2:2 - - -\n  lh | 0 0 2", marks=("4:2",)),
        Example("A | 3:2 - - - 1:0 - - -\n  lh | 2 3", marks=("1:0",)),
        Example("A | 5:4+4:2 - - - 5:0 - - -\n  lh | 11 0", marks=("4:2",)),
    ),
    run=run,
)
