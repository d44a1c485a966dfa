"""One stroke of the pick over strings that nothing is played on.

A pick that strikes two strings runs over those between them. One string between them may be damped by the
finger that holds a note beside it, as in octaves and sixths, and is left alone; two, or one between open
strings, sound unless they are written as dead notes.

Why it matters: the strings between ring along, and they are in no chord of anybody's.

What to do: write the strings between as dead notes (`4:x`) that the fretting hand damps, or pluck the upper
note with a finger: `Pm`.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.music import Sound

BETWEEN = 2
"""Strings between two notes that no finger damps."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every chord with one stroke."""
    if subject.piece.kind == "chorus":
        return
    for bar in subject.piece.music.bars:
        for line in bar.lines:
            for sound in line.sounds:
                if len(sound.tones) > 1 and _is_one_stroke(sound):
                    skipped = _skipped(sound)
                    if skipped:
                        yield _finding(subject, sound, skipped)


def _is_one_stroke(sound: Sound) -> bool:
    return sound.stroke is not None or all(tone.hand == "P" for tone in sound.tones)


def _skipped(sound: Sound) -> list[int]:
    struck = sorted((tone for tone in sound.tones if tone.struck), key=lambda tone: tone.string)
    skipped: list[int] = []
    for high, low in pairwise(struck):
        between = range(high.string + 1, low.string)
        if len(between) >= BETWEEN or (between and high.fret == 0 and low.fret == 0):
            skipped += between
    return skipped


def _finding(subject: Subject, sound: Sound, skipped: list[int]) -> Finding:
    many = len(skipped) > 1
    strings = " and ".join(map(str, skipped)) if len(skipped) < 3 else f"{skipped[0]} to {skipped[-1]}"
    low = max(tone.string for tone in sound.tones)
    high = min(tone.string for tone in sound.tones)
    return subject.report(
        RULE,
        f"one stroke from string {low} to string {high} runs over string{'s' if many else ''} {strings},"
        f" which {'have' if many else 'has'} no note",
        next((span for kind, span in sound.entries if kind == "rh"), sound.span),
        sound.address,
        help=f"Damp {'them' if many else 'it'}: {skipped[0]}:x; or pluck the upper note with a finger: Pm",
    )


RULE = Rule(
    id="picking/skipped-string",
    title="One stroke over strings that nothing is played on",
    severity=Severity.QUERY,
    source=Source("common practice", "A stroke of the pick sounds every string it passes that is not damped"),
    good=(
        Example("A | 5:0+2:2 - - - 5:0 - - -\n  rh | Pm d"),
        Example("A | 5:0+4:x+3:x+2:2 - - - 5:0 - - -\n  rh | d d"),
        Example("A | 5:0+3:2 - - - 5:0 - - -\n  rh | d d"),
    ),
    bad=(Example("A | 5:0+2:2 - - - 5:0 - - -\n  rh | d d", marks=("d",)),),
    run=run,
)
