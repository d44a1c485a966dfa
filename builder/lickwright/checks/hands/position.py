"""A position that the notes are not in.

Stated by the `position` field or a bracket, `pos5[ ]`, `open[ ]`. A position covers the frets from one below
it to four above; open strings, harmonics and tapped notes belong to every one. One note that reaches out of
it, and several that are fewer than a quarter of all, are left alone.

Where all frets of a bar lie in the position, a finger a fret, and all its fingers are those of another one,
the `lh` row and the position contradict each other. Open position says of no fret which finger it has.

Why it matters: the position is where a student puts the hand before the first note. From the wrong place
every finger of the lick is wrong.

What to do: state the position that is named, or look at the frets; state another from the bar where the
hand moves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from lickwright.checks.onsets import held_fret
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.checks.wording import count_word
from lickwright.findings import Edit, Fix
from lickwright.instrument.position import covers, fitting
from lickwright.model.fields import PositionClaim
from lickwright.model.strike import Harmonic
from lickwright.text import Span

FINGERS = ("1", "2", "3", "4")
FEWEST = 3
"""Notes of a bar whose fingers tell a position."""
A_FEW = 2
"""Notes outside that are too few to speak of, unless all are outside."""


def run(subject: Subject) -> Iterator[Finding]:
    """Count the fretted notes of each stretch that a position is stated for."""
    if subject.piece.kind == "chorus":
        return
    claims = subject.piece.positions
    bracketed = any(written.sound.position is not None for written in subject.tones)
    if not claims and not bracketed:
        return
    fretted = [written for written in subject.tones if _counts(written)]
    for claim in claims:
        others = [other for other in claims if claim.bars is None and other is not claim]
        notes = [
            written
            for written in fretted
            if written.sound.position is None
            and _holds(claim, written)
            and not any(_holds(other, written) for other in others)
        ]
        yield from _judge(subject, claim.fret, notes, claim.span) or _compare(subject, claim.fret, notes)
    if bracketed:
        for position, notes in _brackets(subject, fretted):
            span = notes[0].tone.span
            yield from _judge(subject, position, notes, span) or _compare(subject, position, notes)


def _holds(claim: PositionClaim, written: Written) -> bool:
    bars = claim.bars
    return bars is None or bars.first.bar <= written.bar.number <= bars.last.bar


def _counts(written: Written) -> bool:
    return held_fret(written.tone) is not None and not (
        isinstance(written.tone.head, Harmonic) and not written.tone.head.fret
    )


def _brackets(subject: Subject, fretted: Sequence[Written]) -> Iterator[tuple[int, list[Written]]]:
    """Runs of sounds under one position bracket, voice by voice."""
    own = {id(written.tone): written for written in fretted}
    for lower in (False, True):
        run: tuple[int, list[Written]] | None = None
        for written in subject.tones:
            if written.sound.address.lower is not lower:
                continue
            position = written.sound.position
            if run is not None and position != run[0]:
                if run[1]:
                    yield run
                run = None
            if position is not None:
                run = run or (position, [])
                if id(written.tone) in own:
                    run[1].append(written)
        if run is not None and run[1]:
            yield run


def _judge(subject: Subject, position: int, notes: Sequence[Written], span: Span) -> list[Finding]:
    """Hold the frets against the position."""
    frets = [fret for written in notes if (fret := held_fret(written.tone)) is not None]
    outside = [fret for fret in frets if not covers(position, fret)]
    few = len(outside) < min(A_FEW, len(frets))
    if not outside or few or len(outside) < subject.limits["position-outside"] * len(frets):
        return []
    better = fitting(frets, position)
    first = next(written for written in notes if held_fret(written.tone) == outside[0])
    said = "open position" if position == 0 else f"position {position}"
    most = count_word(len(outside)) if len(outside) < len(frets) else "all"
    finding = subject.report(
        RULE,
        f"{said} is stated, and {most} of {count_word(len(frets))} fretted notes lie outside it, the first at"
        f" fret {outside[0]}",
        span,
        first.sound.address,
        help=f"Position {better} fits most of them" if better and better != position else "Look at the frets",
        fix=_state(better, frets, span),
    )
    return [finding]


def _state(better: int | None, frets: Sequence[int], span: Span) -> Fix | None:
    """The position that all notes are in, where it is a field that states it."""
    if better is None or not span.text.isdigit() or not all(covers(better, fret) for fret in frets):
        return None
    return Fix(f"write {better}: all notes lie in that position", (Edit(span, str(better)),))


def _compare(subject: Subject, position: int, notes: Sequence[Written]) -> list[Finding]:
    """Hold the fingers against it, bar by bar; the first bar that has those of another position is told."""
    for _, bar in groupby(notes if position else (), key=lambda written: written.bar.number):
        fingered = [
            (written, fret, int(written.tone.finger))
            for written in bar
            if (fret := held_fret(written.tone)) is not None and written.tone.finger in FINGERS
        ]
        frets = {fret for _, fret, _ in fingered}
        stands = {fret - finger + 1 for _, fret, finger in fingered}
        if len(fingered) < FEWEST or len(frets) < A_FEW or len(stands) > 1 or position in stands:
            continue
        if not position <= min(frets) <= max(frets) < position + len(FINGERS):
            continue
        first, fret, finger = fingered[0]
        return [
            subject.report(
                RULE,
                f"position {position} is stated, and the fingers of bar {first.bar.number} are those of"
                f" position {stands.pop()}: finger {finger} is on fret {fret}",
                first.entry("lh") or first.tone.span,
                first.sound.address,
                help=f"Give fret {fret} finger {fret - position + 1} and go on so, or state the position",
            )
        ]
    return []


RULE = Rule(
    id="hands/position",
    title="A position that the notes are not in",
    severity=Severity.QUERY,
    source=Source("common practice", "Position playing: a finger a fret, and a fret to either side"),
    good=(
        Example("position: 2\n\nA | 5:0 - 5:4 - 4:2 - 4:4 -\n| 3:2 - 2:2 - 1:5 - 1:2 -"),
        Example("position: 2 (bar 1), 9 (bar 2)\n\nA | 3:2 - 2:2 - 1:5 - 1:2 -\n| 2:10 - 1:9 - 1:12 - - -"),
        Example("position: 2\n\nA | 3:2 - 2:2 - pos9[2:10 1:9 1:12 1:9]"),
        Example("position: open\n\nA | 4:4 - 4:2 - 5:4 - 5:0 -\n  lh | 3 1 3 0"),
    ),
    bad=(
        Example("position: 5\n\nA | 2:10 - 2:12 - 1:9 - 1:12 -", marks=("5",)),
        Example(
            "position: 5\n\nN.C. | 2:5 1:5 2:8 1:8 2:10 1:8 2:5 1:10",
            marks=("5",),
        ),
        Example("position: 2\n\nA | 4:4 - 4:2 - 5:4 - 5:0 -\n  lh | 4 2 4 0", marks=("4",)),
        Example("A | 3:2 - 2:2 - open[2:10 1:9 1:12 1:9]", marks=("2:10",)),
    ),
    run=run,
)
