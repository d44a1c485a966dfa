"""A bend with too little time to get there.

A bend takes a moment to begin and more for each half step; a release takes as long again. What is bent
before it is struck takes no time.

Why it matters: a bend that has no time is heard as a smear, not as the note it is written for.

What to do: give it a longer note, bend it before it is struck (`pb`), or fret the target.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.wording import note_text
from lickwright.model.music import Tone

START, STEP = "bend-time", "bend-time-step"


def run(subject: Subject) -> Iterator[Finding]:
    """Hold the length of each bent note against what its movements take."""
    for written in subject.tones:
        tone = written.tone
        if not tone.bends:
            continue
        needed = _milliseconds(tone, subject.limits[START], subject.limits[STEP])
        given = 1000 * float(written.sound.duration) * subject.quarter
        if given + 1e-6 >= needed:
            continue
        released = len(tone.path) > 2
        yield subject.report(
            RULE,
            f"{note_text(tone)} has {given:.0f} ms at {subject.piece.tempo.bpm} to be bent"
            f"{' and let down' if released else ''}; it takes about {needed:.0f}",
            tone.span,
            written.sound.address,
            help="Give it a longer note, bend it before it is struck (pb), or fret the target",
        )


def _milliseconds(tone: Tone, start: float, step: float) -> float:
    return sum(start + step * abs(float(after - before)) for before, after in pairwise(tone.path))


RULE = Rule(
    id="speed/bend-time",
    title="A bend with too little time",
    severity=Severity.QUERY,
    source=Source("own threshold", "Common practice; the milliseconds are our own"),
    good=(
        Example("tempo: 100\n\nA7 | 3:7b9r7 - 2:5 - 3:6 - 4:7 -"),
        Example("tempo: 200\n\nA7 | 3:7b9 2:5 3:7pb9 2:5 3:6 - 4:7 -"),
    ),
    bad=(
        Example(
            "step: 1/16\ntempo: 110\n\nA7 | 3:7b9r7 2:5 3:7 - 2:5 - - - 3:6 - - - 4:7 - - -",
            marks=("3:7b9r7",),
        ),
    ),
    run=run,
)
