"""A finger that cannot be where the ``lh`` row puts it.

``0`` is the open string: it stands under no fretted note, and no finger stands under an open one. One
finger holds several strings at one fret (a barre), never two frets at once, and no string under the barre
sounds lower. Of notes that sound together, in one voice or in two, the lower finger has the lower fret. A
hammer-on or a pull-off needs two fingers, the higher one on the higher fret.

Why it matters: the row is what a beginner's hand follows; one entry that contradicts its note makes the
whole row doubtful.

What to do: mend the finger; where the fret has slipped, mend the fret.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import Held, Lead, overlap
from lickwright.checks.subject import Subject, Written
from lickwright.checks.wording import SLURS, note_text
from lickwright.findings import Label
from lickwright.instrument.hand import FINGERS
from lickwright.model.music import Tone
from lickwright.model.strike import Fretted, Hammered


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every note with a finger, at its fellows in the sound and outside of it, then at slurs."""
    fingered = False
    for written in subject.tones:
        if written.tone.finger is not None:
            fingered = True
            yield from _look(subject, written)
    if fingered and overlap(subject.piece.music):
        yield from _look_across(subject)
    if fingered:
        for lead in subject.leads:
            yield from _look_at_slur(subject, lead)


def _look(subject: Subject, written: Written) -> Iterator[Finding]:
    tone = written.tone
    if tone.fret == 0 and tone.finger != "0" and isinstance(tone.head, Fretted):
        yield _report(
            subject,
            written,
            f"the lh row has {tone.finger} for the open string {tone.string}: no finger is on it",
            "Write 0, or mend the fret",
        )
    elif tone.finger == "0" and _is_held(tone):
        yield _report(
            subject,
            written,
            f"the lh row has 0, the open string, for {note_text(tone)}, which is fretted",
            "Write the finger that holds it, * for none said, or mend the fret",
        )
    elif _is_held(tone):
        for other in written.sound.tones[: written.index]:
            said = _clash(other, tone) if other.finger != "0" and _is_held(other) else None
            said = said or _under_barre(other, tone, written.sound.tones)
            if said is not None:
                yield _report(subject, written, *said, Label(other.span, "the other note"))
                return


def _look_across(subject: Subject) -> Iterator[Finding]:
    """Look at what begins while another sound is held; a finger that is taken away has a rule of its own."""
    sounding: list[Held] = []
    for held in subject.held:
        tone = held.tone
        if tone.finger not in FINGERS or not _is_held(tone) or tone.tied:
            continue
        sounding = [
            other for other in sounding if other.end > held.start and other.tone.string != tone.string
        ]
        for other in sounding:
            taken = other.start < held.start and other.tone.finger == tone.finger
            said = None if taken or other.sound is held.sound else _clash(other.tone, tone)
            if said is not None:
                yield _report(subject, held, *said, Label(other.tone.span, "the other note"))
                break
        sounding.append(held)


def _is_held(tone: Tone) -> bool:
    return bool(tone.finger) and bool(tone.fret) and isinstance(tone.head, Fretted | Hammered)


def _clash(one: Tone, two: Tone) -> tuple[str, str] | None:
    """What two fretted notes with fingers cannot do together."""
    if one.fret == two.fret or one.fret is None or two.fret is None:
        return None
    if one.finger == two.finger:
        message = f"finger {two.finger} is to hold frets {one.fret} and {two.fret} at once"
        return message, "One finger bars several strings at one fret only"
    low, high = sorted((one, two), key=lambda tone: tone.fret or 0)
    if low.finger in FINGERS and high.finger in FINGERS and low.finger > high.finger:
        message = f"finger {high.finger} is on fret {high.fret} above finger {low.finger} on fret {low.fret}"
        return message, "Of notes held together the lower finger has the lower fret"
    return None


def _under_barre(one: Tone, two: Tone, tones: tuple[Tone, ...]) -> tuple[str, str] | None:
    """What sounds lower on a string that a barre lies across."""
    if one.finger != two.finger or one.fret != two.fret or two.finger not in FINGERS:
        return None
    first, last = sorted((one.string, two.string))
    under = next(
        (
            tone
            for tone in tones
            if first < tone.string < last
            and isinstance(tone.head, Fretted)
            and tone.head.fret < (two.fret or 0)
        ),
        None,
    )
    if under is None:
        return None
    message = f"finger {two.finger} lies across fret {two.fret}, and {note_text(under)} is to sound under it"
    return message, "Hold the two strings with two fingers"


def _look_at_slur(subject: Subject, lead: Lead) -> Iterator[Finding]:
    before, after = lead.before, lead.after
    if lead.kind not in SLURS or before.finger not in FINGERS or after.finger not in FINGERS:
        return
    if before.fret is None or after.fret is None or not before.fret or not after.fret:
        return
    if not isinstance(before.head, Fretted | Hammered) or not isinstance(after.head, Fretted | Hammered):
        return
    low, high = (before, after) if before.fret < after.fret else (after, before)
    if (low.finger or "") < (high.finger or ""):
        return
    same = low.finger == high.finger
    yield subject.report(
        RULE,
        f"a {SLURS[lead.kind]} between frets {before.fret} and {after.fret} needs two fingers,"
        f" and both are given to {low.finger}"
        if same
        else f"a {SLURS[lead.kind]} with finger {high.finger} on fret {high.fret} above finger {low.finger}"
        f" on fret {low.fret}",
        lead.span,
        lead.address,
        severity=Severity.ERROR if same else Severity.QUERY,
        labels=(Label(before.span, "the other note"),),
        help="Write s for a slide, or give the higher fret the higher finger"
        if same
        else "Give the higher fret the higher finger",
    )


def _report(subject: Subject, at: Written | Held, message: str, hint: str, *labels: Label) -> Finding:
    rows = tuple(Label(span, "the lh row") for kind, span in at.sound.entries if kind == "lh")
    return subject.report(RULE, message, at.tone.span, at.sound.address, labels=(*labels, *rows), help=hint)


RULE = Rule(
    id="hands/finger",
    title="A finger that cannot be where its row puts it",
    severity=Severity.ERROR,
    source=Source(
        "common practice",
        "Left-hand fingering: 0 is the open string, a barre lies at one fret, fingers do not cross",
    ),
    good=(
        Example("A | 5:0 - 4:2+3:2 - 2:2 - - -\n  lh | 0 11 2"),
        Example("A | 1:5 - 1:4 - 1:0 - - -\n   lh | 4 3 0\n   low | 4:2 - - - 5:0 - - -\n   lh | 1 0"),
        Example("A | 5:0+4:2+3:2+2:2+1:0 - - - 3:2 h 3:4 p 3:2 -\n  lh | 02130 1 3 1"),
    ),
    bad=(
        Example("A | 5:0 - 4:2 - 2:2 - - -\n  lh | 0 0 2", marks=("4:2",)),
        Example("A | 3:2 - - - 1:0 - - -\n  lh | 2 3", marks=("1:0",)),
        Example("A | 5:4+4:2 - - - 5:0 - - -\n  lh | 11 0", marks=("4:2",)),
        Example("A | 3:6+2:5 - - - 5:0 - - -\n  lh | 12 0", marks=("2:5",)),
        Example("A7 | 4:2+3:0+2:2 - - - 5:0 - - -\n  lh | 101 0", marks=("2:2",)),
        Example(
            "A | 1:5 - - - 1:0 - - -\n   lh | 1 0\n   low | 4:4 - - - 5:0 - - -\n   lh | 3 0", marks=("4:4",)
        ),
        Example("A | 4:2 h 4:4 - - 5:0 - - -\n  lh | 1 1 0", marks=("4:4",)),
        Example("A | 4:4 p 4:2 - - 5:0 - - -\n  lh | 1 3 0", marks=("4:2",)),
    ),
    run=run,
)
