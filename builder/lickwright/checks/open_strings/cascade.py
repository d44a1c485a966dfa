"""A cascade that does not run over ringing strings.

Said by `claims: cascade`. In a cascade each note is on another string than the one before and rings on when
the next one comes, and open strings make a good part of it. Where the bracket closes or a rest comes it is
over; the last note need not ring on.

Why it matters: the ringing is what makes a scale a cascade; two notes in a row on one string, or a bracket
left out, and it is a scale again.

What to do: move the second note to the next string, put the passage into `ring[ ]`, or say of which bars the
claim is true, `cascade (bars 1-2)`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.strings import walk
from lickwright.checks.subject import Subject
from lickwright.checks.wording import count_word, note_text
from lickwright.findings import Label
from lickwright.model.fields import Claim
from lickwright.model.music import Sound

Placed = tuple[Sound, Fraction]
"""A sound and its onset."""


def run(subject: Subject) -> Iterator[Finding]:
    """Look at the bars of each claim."""
    claims = [claim for claim in subject.piece.claims if claim.kind == "cascade"]
    if not claims:
        return
    ends = {id(held.tone): held.end for held in subject.held}
    voice = [
        (bar.number, sound, at)
        for bar, sound, at in walk(subject.piece.music, lower=False)
        if any(tone.path for tone in sound.tones)
    ]
    for claim in claims:
        bars = claim.bars
        notes = [
            (sound, at)
            for number, sound, at in voice
            if bars is None or bars.first.bar <= number <= bars.last.bar
        ]
        yield from _judge(subject, claim, notes, ends)


def _judge(
    subject: Subject, claim: Claim, notes: Sequence[Placed], ends: Mapping[int, Fraction]
) -> Iterator[Finding]:
    stopped: Sound | None = None
    for number, ((sound, at), (after, then)) in enumerate(pairwise(notes)):
        if at + sound.duration < then or (sound.ring and after.ring != sound.ring):
            continue  # a rest, or the bracket closes: the cascade is over
        strings = {tone.string: tone for tone in sound.tones}
        same = next((tone for tone in after.tones if tone.string in strings), None)
        if same is not None:
            yield subject.report(
                RULE,
                f"a cascade is claimed, and {note_text(strings[same.string])} and {note_text(same)} follow"
                f" each other on string {same.string}: the second stops the first",
                same.span,
                after.address,
                labels=(Label(strings[same.string].span, "the note before"),),
                help="Play one of them on the next string",
            )
        elif number < len(notes) - 2 and all(ends.get(id(tone), then) <= then for tone in sound.tones):
            stopped = stopped or sound
    if stopped is not None:
        yield subject.report(
            RULE,
            f"a cascade is claimed, and {note_text(stopped.tones[0])} does not ring on when the next note"
            " comes",
            stopped.span,
            stopped.address,
            help="Put the passage into ring[ ], or say of which bars the claim is true",
        )
    sounded = [tone for sound, _ in notes for tone in sound.tones]
    opened = sum(tone.fret == 0 for tone in sounded)
    if sounded and opened < subject.limits["cascade-open"] * len(sounded):
        yield subject.report(
            RULE,
            f"a cascade is claimed, and {count_word(opened) if opened else 'none'} of"
            f" {count_word(len(sounded))} notes {'is' if opened < 2 else 'are'} on an open string",
            claim.span,
            notes[0][0].address,
            severity=Severity.QUERY,
            help="Take more of the notes on open strings, where the key allows",
        )


RULE = Rule(
    id="open-strings/cascade",
    title="A cascade that does not ring on from string to string",
    severity=Severity.ERROR,
    source=Source(
        "common practice", "A cascade rings over neighbouring strings; the share of open ones is our own"
    ),
    good=(
        Example("key: E major\nclaims: cascade\n\nE7 | ring[1:5 2:5 1:0 2:3 3:4 2:0 3:1 -]"),
        Example("key: E major\n\nE7 | 1:5 2:5 1:0 2:3 3:4 2:0 3:1 -"),
    ),
    bad=(
        Example(
            "key: E major\nclaims: cascade\n\nE7 | ring[1:5 2:5 1:0 2:3 2:0 3:4 3:1 -]",
            marks=("2:0", "3:1"),
        ),
        Example("key: E major\nclaims: cascade\n\nE7 | 1:5 2:5 1:0 2:3 3:4 2:0 3:1 -", marks=("1:5",)),
        Example(
            "key: E major\nclaims: cascade\n\nE7 | ring[1:7 2:9 1:5 2:7 3:7 2:5 3:6 -]",
            marks=("cascade",),
        ),
    ),
    run=run,
)
