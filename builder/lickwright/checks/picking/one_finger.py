"""One plucking finger twice in a row, faster than it comes round.

Measured between two notes that the ``rh`` row gives to the same finger or to the thumb, at the full tempo.
A pick goes both ways and is left alone; so is a thumb that brushes from string to string.

Why it matters: a finger has to return before it plucks again. Two that take turns are twice as fast, and
do not tire.

What to do: give every other note to another finger, or lower the tempo.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.onsets import picked
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.music import Sound

FINGERS = {
    "p": "the thumb",
    "i": "the index finger",
    "m": "the middle finger",
    "a": "the ring finger",
    "c": "the little finger",
}


def run(subject: Subject) -> Iterator[Finding]:
    """Take the time from each finger's note to its next."""
    if subject.piece.kind == "chorus" or not any(written.tone.hand in FINGERS for written in subject.tones):
        return
    most = subject.limits["finger-speed"]
    last: dict[str, tuple[float, Sound]] = {}
    told: set[str] = set()
    for onset in subject.onsets:
        if not picked(onset.sound):
            continue
        hands = {tone.hand for tone in onset.sound.tones if tone.hand in FINGERS}
        for hand in sorted(hand for hand in hands if hand):
            before = last.get(hand)
            last[hand] = (onset.start, onset.sound)
            if before is None or hand in told:
                continue
            seconds = (onset.start - before[0]) * subject.quarter
            if seconds > 0 and seconds * most < 1 - 1e-9 and not _brushes(hand, before[1], onset.sound):
                told.add(hand)
                yield subject.report(
                    RULE,
                    f"{FINGERS[hand]} plucks twice in a row at {1 / seconds:.1f} notes a second:"
                    f" more than {most:g} are hard to keep up",
                    next((span for kind, span in onset.sound.entries if kind == "rh"), onset.sound.span),
                    onset.sound.address,
                    help="Give every other note to another finger",
                )


def _brushes(hand: str, before: Sound, after: Sound) -> bool:
    return (
        hand == "p"
        and len(before.tones) == len(after.tones) == 1
        and (before.tones[0].string - after.tones[0].string == 1)
    )


RULE = Rule(
    id="picking/one-finger",
    title="One plucking finger twice in a row, too fast",
    severity=Severity.QUERY,
    source=Source("own threshold", "Six notes a second for one finger; no published figure was found"),
    good=(
        Example("tempo: 120\n\nA | 2:2 2:3 2:5 2:3 2:2 - - -\n  rh | m m m m m"),
        Example("tempo: 120\nstep: 1/16\nmeter: 2/4\n\nA | 2:2 2:3 2:5 2:3 2:2 - - -\n  rh | i m i m i"),
    ),
    bad=(
        Example(
            "tempo: 120\nstep: 1/16\nmeter: 2/4\n\nA | 2:2 2:3 2:5 2:3 2:2 - - -\n  rh | i m m i m",
            marks=("m",),
        ),
    ),
    run=run,
)
