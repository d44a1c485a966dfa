"""A note that a sentence names beside its links, and nothing near them holds it.

A name with an accidental, outside the links, is looked for in the licks of the sentence, in the lick each is
varied from, in their chords and in their key. A note that is denied, supposed or compared is left alone.

Why it matters: a slip of the pen in the middle of a sentence is found by no ear.

What to do: mend the name; where the note stands in another lick, link it.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for the note in everything that the sentence may speak of."""
    said = claim.terms[0].value
    assert isinstance(said, PitchClass)  # the kind of claim says so
    for one in (notes, *notes.others):
        subject: Subject | None = one.subject
        while subject is not None:
            if said.semitone in _near(subject):
                return HELD
            subject = subject.base
    return Differs(
        f"the words name {said.spoken}, which is in no note, chord or key of “{claim.link.target}”",
        claim.terms[0],
    )


def _near(subject: Subject) -> set[int]:
    music = subject.piece.music
    near = set(music.key.working_semitones)
    for bar in music.bars:
        near.update(pitch for chord in bar.chords for pitch in chord.symbol.semitones)
        for sound in (sound for line in bar.lines for sound in line.sounds):
            tones = (*sound.tones, *(tone for grace in sound.grace for tone in grace.tones))
            near.update(pitch for tone in tones for pitch in pitch_classes(tone))
    return near


RULE = Rule(
    id="prose/mention",
    title="A note that a sentence names, and nothing near its links holds it",
    severity=Severity.QUERY,
    source=Source("common practice", "Words and notes by one name"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:0 -\n```\n\n"
            "From [A](lick:example@1.1) it walks up to C sharp, and G sharp is not in it."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:0 -\n```\n\n"
            "From [A](lick:example@1.1) it walks up to E flat.",
            ("E flat",),
        ),
    ),
    survey=tell("mention", Severity.QUERY),
)
