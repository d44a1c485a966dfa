"""A fret that the neck does not have.

Frets count from the capo, so a capo takes as many off the top. Grace notes and tapped notes are
looked at too, and the fret to whose pitch a string is bent is not: the finger never goes there.

Why it matters: the note cannot be played on the guitar that the course is for; usually a digit slipped.

What to do: mend the fret, or state the guitar's true number of frets in the manifest.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address
from lickwright.model.music import Tone


def run(subject: Subject) -> Iterator[Finding]:
    """Look at every tone and grace note."""
    for written in subject.tones:
        yield from _look(subject, written.tone, written.sound.address)
        if written.index == 0:
            for grace in written.sound.grace:
                for tone in grace.tones:
                    yield from _look(subject, tone, written.sound.address)


def _look(subject: Subject, tone: Tone, address: Address) -> Iterator[Finding]:
    guitar = subject.piece.music.guitar
    if tone.fret is None or guitar.has_fret(tone.fret):
        return
    capo = f" above the capo at {guitar.capo}" if guitar.capo else ""
    yield subject.report(
        RULE,
        f"fret {tone.fret} is off the neck: the highest{capo} is {guitar.highest_fret}",
        tone.span,
        address,
        help="Look at the digits, or set frets under [guitar] in course.toml",
    )


RULE = Rule(
    id="hands/range",
    title="A fret beyond the neck",
    severity=Severity.ERROR,
    source=Source("common practice", "The geometry of the neck; the course states its number of frets"),
    good=(Example("A7 | 1:17 - 1:15 - 1:12 - 1:9 -"),),
    bad=(Example("A7 | 1:17 - 1:25 - 1:12 - 1:9 -", marks=("1:25",)),),
    run=run,
    stettable=False,
    no_stet="the guitar has no such note, and no reason gives it one",
)
