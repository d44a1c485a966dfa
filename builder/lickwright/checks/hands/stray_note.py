"""A single note far from where the hand is, before it and after it.

The frets of the notes around it lie under one hand, and it lies five frets or more beyond them; for one note
the hand would have to go there and back. The same note or its octave, or the fret a slipped digit would have
been, lies where the hand is; a note that is only to be had out there is left alone. So are an open string, a
rest, a beat's time or a slide on both sides, another position stated for it, a harmonic and a tapped note.

Why it matters: it can mostly be played, so nobody who only measures the speed will find it; but no hand goes
there. It is how a slipped octave, a digit too many or a string of another position looks.

What to do: take the note where the hand is; where it is meant, write the slide or its position bracket.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from lickwright.checks.candidates import list_candidates
from lickwright.checks.grips import Grip, Hold, list_stretches
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.strike import Harmonic

FAR = "stray-frets"
WIDE = 4
"""Frets under one hand, a stretch among them."""
AROUND = 3
"""Grips that are looked at before and after a note."""
FEWEST = 3
"""Grips that show where the hand is."""


def run(subject: Subject) -> Iterator[Finding]:
    """Hold each single note against the grips around it."""
    if subject.piece.kind == "chorus" or not _spreads(subject):
        return
    grips = list(chain.from_iterable(list_stretches(subject.piece, subject.onsets)))
    told: set[object] = set()
    for number, grip in enumerate(grips):
        before, after = grips[max(number - AROUND, 0) : number], grips[number + 1 : number + 1 + AROUND]
        frets = [fret for each in (*before, *after) for fret in each.frets]
        hold = grip.held[0]
        if not _is_stray(grip, before, after, subject.limits[FAR]) or hold.sound.address in told:
            continue
        if not _lies_under(subject, hold, min(frets), max(frets)):
            continue
        told.add(hold.sound.address)
        yield _report(subject, hold, min(frets), max(frets))


def _spreads(subject: Subject) -> bool:
    """Whether any two frets lie far enough apart. Quick to ask."""
    frets = [written.tone.fret for written in subject.tones if written.tone.fret]
    return bool(frets) and max(frets) - min(frets) >= subject.limits[FAR]


def _is_stray(grip: Grip, before: Sequence[Grip], after: Sequence[Grip], far: float) -> bool:
    hold, frets = grip.held[0], [fret for each in (*before, *after) for fret in each.frets]
    if len(grip.held) > 1 or len(before) + len(after) < FEWEST or not before or not after:
        return False
    if isinstance(hold.tone.head, Harmonic) or max(frets) - min(frets) > WIDE:
        return False
    if min(frets) - far < hold.fret < max(frets) + far:
        return False
    return not (_has_leave(grip) and _has_leave(after[0]))


def _lies_under(subject: Subject, hold: Hold, low: int, high: int) -> bool:
    """Whether what the note may be meant for lies where the hand is, or an octave off on an open string."""
    index = next(k for k, tone in enumerate(hold.sound.tones) if tone is hold.tone)
    for place in list_candidates(subject, hold.sound, index, reached=True):
        fret, away = place.tone.fret, place.tone.path[0] - hold.tone.path[-1]
        if (high - WIDE <= fret <= low + WIDE) if fret else away % 12 == 0:
            return True
    return False


def _has_leave(grip: Grip) -> bool:
    """Whether the hand can come at its ease."""
    return grip.free or grip.eased


def _report(subject: Subject, hold: Hold, low: int, high: int) -> Finding:
    at = f"fret {low}" if low == high else f"frets {low} to {high}"
    return subject.report(
        RULE,
        f"fret {hold.fret} lies {max(low - hold.fret, hold.fret - high)} frets from the notes around it,"
        f" at {at}: for one note the hand would go there and back",
        hold.tone.span,
        hold.sound.address,
        help="Take it where the hand is, or write the slide or the position that takes the hand there",
    )


RULE = Rule(
    id="hands/stray-note",
    title="A single note far from the hand",
    severity=Severity.QUERY,
    source=Source(
        "own threshold",
        "Position playing is common practice; how far, and how much time, is our own",
    ),
    good=(
        Example("N.C. | 2:5 2:8 1:5 s 1:17 s 1:5 2:8 2:5 -"),
        Example("N.C. | 2:5 2:8 1:0 1:12 1:0 2:8 2:5 -"),
        Example("N.C. | 2:5 2:8 1:5 2:8 1:12 1:15 1:12 -"),
        Example("A | 1:2 1:5 1:5 1:10 1:5 1:2 2:2 -"),
    ),
    bad=(
        Example("N.C. | 2:5 2:8 1:5 1:17 1:5 2:8 2:5 -", marks=("1:17",)),
        Example("N.C. | 3:2 2:3 3:2 4:12 3:2 4:4 4:2 -", marks=("4:12",)),
    ),
    run=run,
    one_note=True,
)
