"""More notes a second than a fretting hand can sound.

Counted over any four successive notes, slurred ones among them, at the full tempo: hammer-ons and pull-offs
in a row by themselves, and all notes together, picked and slurred.

Why it matters: beyond this the notes of a slur run into each other, and what is printed is not what is heard.
Usually the step or the tempo has slipped.

What to do: look at the tempo and the step; for a shake of two notes write `trill7` in the `signs` row.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.onsets import Onset, fastest_run, picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Late

RUN = 4
"""Successive notes over which the rate is measured."""
SLURS = (JoinKind.HAMMER, JoinKind.PULL)


def run(subject: Subject) -> Iterator[Finding]:
    """Measure the fastest run of all notes, then the fastest of slurs alone."""
    if not subject.leads:
        return
    onsets = [o for o in subject.onsets if not all(isinstance(t.head, Late) for t in o.sound.tones)]
    limits = subject.limits
    rate, notes = fastest_run(onsets, RUN)
    speed = rate / subject.quarter
    if speed > limits["slurs-error"] and not all(picked(onset.sound) for onset in notes):
        yield _report(subject, speed, notes[0], notes[-1], Severity.ERROR)
        return
    if speed <= limits["slurs-query"]:
        return
    for index in range(len(onsets) - RUN + 1):
        part = onsets[index : index + RUN]
        if all(_slurred(onset) for onset in part[1:]):
            speed = fastest_run(part, RUN)[0] / subject.quarter
            if speed > limits["slurs-query"]:
                yield _report(subject, speed, part[0], part[-1], Severity.QUERY)
                return


def _slurred(onset: Onset) -> bool:
    return any(tone.link in SLURS for tone in onset.sound.tones)


def _report(subject: Subject, speed: float, first: Onset, last: Onset, severity: Severity) -> Finding:
    severe = severity is Severity.ERROR
    return subject.report(
        RULE,
        f"{speed:.1f} notes a second at {subject.piece.tempo.bpm}, from {first.sound.address} to"
        f" {last.sound.address}: more than a hand {'can sound' if severe else 'slurs easily'}",
        first.sound.span,
        first.sound.address,
        severity=severity,
        help="Look at the tempo and the step; for a shake to fret 7 write trill7 in the signs row",
    )


RULE = Rule(
    id="speed/slurs",
    title="More slurred notes a second than a hand sounds",
    severity=Severity.ERROR,
    source=Source("own threshold", "Notes a second; sixteenth triplets at 120 are 12 a second"),
    good=(Example("step: 1/16\n\nA | (4:2 h 4:4 p 4:2)/2 4:0 - - - - 5:0 - - - - - - - -"),),
    bad=(
        Example(
            "step: 1/16\ntempo: 120\n\nA | (4:2 h 4:4 p 4:2 h 4:4 p 4:2 h 4:4 p 4:2 h 4:4)/2"
            " 4:2 - - - - - 5:0 - - - - - - -",
            marks=("4:2",),
        ),
        Example(
            "step: 1/16\ntempo: 120\n\nA | (4:2 h 4:4 p 4:2 h 4:4)/2 4:2 - - - - - 5:0 - - - - - - -",
            marks=("4:2",),
        ),
    ),
    run=run,
)
