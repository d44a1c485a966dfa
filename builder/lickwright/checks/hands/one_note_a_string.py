"""Two notes that need one string at the same moment.

In one sound a string stands twice, or the two voices of a bar meet on a string while the note
that was there first is still to be held.

Why it matters: a string sounds one pitch at a time; the later note stops the earlier one.

What to do: move one of the two to the string beside it, or shorten the note that is held.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import walk
from lickwright.checks.subject import Subject
from lickwright.checks.wording import note_text
from lickwright.findings import Label
from lickwright.model.music import Sound, Tone


def run(subject: Subject) -> Iterator[Finding]:
    """Look inside each sound, then between the voices."""
    for written in subject.tones:
        earlier = written.sound.tones[: written.index]
        twice = next((tone for tone in earlier if tone.string == written.tone.string), None)
        if twice is not None:
            yield subject.report(
                RULE,
                f"string {twice.string} is asked for two notes at once: {note_text(twice)}"
                f" and {note_text(written.tone)}",
                written.tone.span,
                written.sound.address,
                labels=(Label(twice.span, "the other one"),),
                help="Play one of them on the next string",
            )
    if subject.piece.music.has_lower:
        yield from _between_voices(subject)


def _between_voices(subject: Subject) -> Iterator[Finding]:
    music = subject.piece.music
    moments = [(at, sound) for lower in (False, True) for _, sound, at in walk(music, lower=lower)]
    moments.sort(key=lambda moment: (moment[0], moment[1].address.lower))
    holding: dict[int, tuple[Fraction, Fraction, Sound, Tone]] = {}
    for at, sound in moments:
        for tone in sound.tones:
            held = holding.get(tone.string)
            if held is not None and held[1] > at and held[2].address.lower != sound.address.lower:
                first = held[3].span.text
                both = (
                    f"{first} and {tone.span.text}"
                    if held[0] == at
                    else f"{first} is still held when {tone.span.text} comes"
                )
                yield subject.report(
                    RULE,
                    f"both voices need string {tone.string} at once: {both}",
                    tone.span,
                    sound.address,
                    labels=(Label(held[3].span, "the other voice"),),
                    help="Play one of them on the next string, or shorten the one that is held",
                )
            holding[tone.string] = (at, at + sound.duration, sound, tone)


RULE = Rule(
    id="hands/one-note-a-string",
    title="Two notes on one string at once",
    severity=Severity.ERROR,
    source=Source("common practice", "A string sounds one pitch at a time"),
    good=(
        Example("A | 2:2+1:0 - - - 3:2 - - -"),
        Example("A | 1:5 - 1:4 1:5  2:5 - 2:2 -\n  low | 5:0 - 4:2 -  5:0 - 4:2 -"),
    ),
    bad=(
        Example("A | 2:5+2:2 - - - 5:0 - - -", marks=("2:2",)),
        Example("A | 4:7 - - -  1:5 - - -\n  low | 5:0 - 4:2 -  5:0 - - -", marks=("4:2",)),
    ),
    run=run,
    stettable=False,
    no_stet="no reason makes one string sound two notes",
)
