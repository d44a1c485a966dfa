"""More picked notes a second than the level of the course asks for, or than anybody picks.

Counted over any twelve successive picked notes, at the full tempo; a burst of four, a turn or a triplet, may
be faster. Slurred and tapped notes take no stroke, a chord takes one, grace notes come out of the time before
them. How fast is fast follows the `level` of the course; a rung of the ladder above the tempo is a goal, and
is held only against what an advanced player does.

Why it matters: a student who is asked for more than the hand can do practises tension. Often it is the
tempo mark that has slipped, or the `step`: sixteenths where eighths were meant.

What to do: look at the tempo and the step; lower the tempo, or slur some of the notes.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.onsets import fastest_run, picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.timeline.tempi import quarters

RUN, BURST = 12, 4
"""Successive notes of a run, which lasts, and of a burst, as a turn or a triplet is."""


def run(subject: Subject) -> Iterator[Finding]:
    """Measure the fastest burst and the fastest run, at the tempo and at the top of the ladder."""
    notes = [onset for onset in subject.onsets if picked(onset.sound)]
    if len(notes) < BURST:
        return
    piece, limits = subject.piece, subject.limits
    meter = piece.music.bars[0].meter
    paces = [(fastest_run(notes, BURST), limits["strokes-burst"]), (fastest_run(notes, RUN), 1.0)]
    goals = [(tempo, "advanced", ", a rung of the ladder") for tempo in piece.ladder]
    for tempo, level, rung in ((piece.tempo, piece.level, ""), *goals):
        for (rate, pace), share in paces:
            speed = rate * float(quarters(tempo, meter)) / 60
            severe = share > 1 and speed > limits["strokes-error"]
            if not severe and speed <= share * limits[f"strokes-{level}-query"] + 1e-9:
                continue
            most = "anybody picks" if severe else f"is asked of {_a(level)} player"
            first, last = pace[0].sound, pace[-1].sound
            yield subject.report(
                RULE,
                f"{speed:.1f} picked notes a second at {tempo.bpm}{rung}, from {first.address} to"
                f" {last.address}: more than {most}",
                first.span,
                first.address,
                severity=Severity.ERROR if severe else Severity.QUERY,
                help="Look at the tempo and the step; lower the tempo, or slur some of the notes",
            )
            return


def _a(level: str) -> str:
    return f"{'an' if level[0] in 'aeiou' else 'a'} {level}"


BEGINNERS = """[course]
title = "Example"
author = "An author"
key = "A major"
tempo = 120
level = "beginner"

[[unit]]
title = "One"
lessons = ["example.md"]
"""
ROW = "5:0 5:2 5:4 4:0 4:2 4:4 3:2 4:4 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -"

RULE = Rule(
    id="speed/strokes",
    title="More picked notes a second than the level asks for",
    severity=Severity.ERROR,
    source=Source("own threshold", "Notes a second by level; sixteenths at 120 are 8 a second"),
    good=(
        Example(f"step: 1/16\ntempo: 120\n\nA | {ROW}"),
        Example(f"step: 1/16\ntempo: 110\nladder: 130\n\nA | {ROW}"),
        Example("A | 5:0 5:2 5:4 4:0 4:2 4:4 3:2 -", course=BEGINNERS),
    ),
    bad=(
        Example(f"step: 1/16\ntempo: 140\n\nA | {ROW}", marks=("5:0",)),
        Example(f"step: 1/16\ntempo: 100\n\nA | {ROW}", marks=("5:0",), course=BEGINNERS),
        Example(
            "step: 1/16\ntempo: 150\n\nA | (5:0 5:2 5:4 4:0)/2 4:2 - - - - - 5:0 - - - - - - -",
            marks=("5:0",),
        ),
        Example(f"step: 1/16\ntempo: 250\n\nA | {ROW}", marks=("5:0",)),
    ),
    run=run,
)
