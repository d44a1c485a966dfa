"""Something that a sentence names beside its links, and nothing near them has it.

A note with an accidental, a string, a fret or a technique that stands outside the links is looked for in the
licks of the sentence and in the lick each is varied from; a note in their chords and in their key as well.
What is denied, supposed or compared is left alone.

Why it matters: a slip of the pen in the middle of a sentence is found by no ear.

What to do: mend the word; where it speaks of another lick, link that one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.claims.term import Movement, Numbers, StringName
from lickwright.checks.prose.fret import frets_of
from lickwright.checks.prose.string import strings_of
from lickwright.checks.prose.technique import used
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.music import Sound, Tone
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for it in everything that the sentence may speak of."""
    term = claim.terms[0]
    match term.value:
        case PitchClass():
            said, has = term.value.spoken, _has_note(term.value)
            what = "in no note, chord or key of"
        case StringName():
            said, has = f"the {term.text}", _has_string(term.value)
            what = "not used in"
        case Numbers(first, _):
            said, has = (
                f"the {term.text}",
                lambda subject: any(first in frets_of(tone) for tone in _tones(subject)),
            )
            what = "not used in"
        case Movement(name, _):
            said, has = (
                f"a {term.text}",
                lambda subject: any(name in used(sound) for sound in _sounds(subject)),
            )
            what = "not used in"
        case _:
            return HELD
    if any(has(subject) for one in (notes, *notes.others) for subject in _line(one.subject)):
        return HELD
    return Differs(f"the words name {said}, which is {what} “{claim.link.target}”", term)


def _line(subject: Subject | None) -> Iterator[Subject]:
    """A piece and those it is varied from."""
    while subject is not None:
        yield subject
        subject = subject.base


def _sounds(subject: Subject) -> Iterator[Sound]:
    bars = subject.piece.music.bars
    return (sound for bar in bars for line in bar.lines for sound in line.sounds)


def _tones(subject: Subject) -> Iterator[Tone]:
    for sound in _sounds(subject):
        yield from sound.tones
        yield from (tone for grace in sound.grace for tone in grace.tones)


def _has_string(said: StringName) -> Callable[[Subject], bool]:
    def has(subject: Subject) -> bool:
        strings = strings_of(said, subject.piece.music.guitar)
        return any(tone.string in strings and (not said.open or tone.fret == 0) for tone in _tones(subject))

    return has


def _has_note(said: PitchClass) -> Callable[[Subject], bool]:
    def has(subject: Subject) -> bool:
        music = subject.piece.music
        if said.semitone in music.key.working_semitones:
            return True
        if any(said.semitone in chord.symbol.semitones for bar in music.bars for chord in bar.chords):
            return True
        return any(said.semitone in pitch_classes(tone) for tone in _tones(subject))

    return has


RULE = Rule(
    id="prose/mention",
    title="Something that a sentence names, and nothing near its links has it",
    severity=Severity.QUERY,
    source=Source("common practice", "Words and notes by one name"),
    good=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:0 -\n```\n\n"
            "From [A](lick:example@1.1) it walks up the fifth string to C sharp, and G sharp is not in it."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:0 -\n```\n\n"
            "From [A](lick:example@1.1) it walks up to E flat.",
            ("E flat",),
        ),
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:0 -\n```\n\n"
            "The walk goes up to [C sharp](lick:example@1.4), and the second string answers.",
            ("second string",),
        ),
    ),
    survey=tell("mention", Severity.QUERY),
)
