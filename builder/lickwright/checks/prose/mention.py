"""Something that a sentence names beside its links, and nothing near them has it.

A note with an accidental, a string, a fret or a technique that stands outside the links is looked for in the
licks of the sentence and in the lick each is varied from; a note in their chords and in their key as well.
What is denied, supposed or compared is left alone.

Why it matters: a slip of the pen in the middle of a sentence is found by no ear.

What to do: mend the word; where it speaks of another lick, link that one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from lickwright.checks.claims.claim import HELD, Claim, ClaimKind, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import degree_classes, key_classes
from lickwright.checks.claims.ledger import Judge, tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.claims.term import Degree, Movement, Numbers, StringName, TermKind
from lickwright.checks.prose import chord, count, degree, finger, interval, position, rhythm, stroke
from lickwright.checks.prose.fret import frets_of
from lickwright.checks.prose.string import strings_of
from lickwright.checks.prose.technique import used
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import Sound, Tone
from lickwright.terms.intervals import read_interval
from lickwright.theory.key import Key
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
            return _spoken(claim, notes)
    if any(has(subject) for one in (notes, *notes.others) for subject in _line(one.subject)):
        return HELD
    return Differs(f"the words name {said}, which is {what} “{claim.link.target}”", term)


_JUDGES: Mapping[TermKind, tuple[ClaimKind, Judge]] = {
    "chord": ("chord", chord.judge),
    "tonality": ("chord", chord.judge),
    "degree": ("degree", degree.judge),
    "count": ("count", count.judge),
    "finger": ("finger", finger.judge),
    "stroke": ("stroke", stroke.judge),
    "position": ("position", position.judge),
    "interval": ("interval", interval.judge),
    "rhythm": ("rhythm", rhythm.judge),
}


_NEAR = frozenset({"finger", "stroke", "position", "degree"})
"""What a lick of any length has somewhere: looked for in the bars of the links alone."""


def _spoken(claim: Claim, notes: Pointed) -> Verdict:
    """Look in everything that the sentence may speak of; where nothing agrees, nobody knows what is meant."""
    kind, judges = _JUDGES[claim.terms[0].kind]
    here = replace(claim, kind=kind, about=None)
    places = tuple(_places(claim, notes))
    if any(judges(here, place) == HELD for place in places):
        return HELD
    value = claim.terms[0].value
    note = claim.beside.value if claim.beside is not None else None
    if isinstance(value, Degree) and isinstance(note, PitchClass):
        classes = [degree_classes(value, chord) for place in places for chord in place.harmony]
        classes += [key_classes(value, place.subject.piece.music.key) for place in places]
        if any(note.semitone in some for some in classes):
            return HELD
    if isinstance(value, Key) and any(_lies_in(value, place) for place in places):
        return HELD
    if isinstance(value, Degree) and value.alter in (None, 0):  # "the sixth" of two strings is an interval
        sizes = read_interval(f"a {claim.terms[0].text}")
        width = replace(
            here, kind="interval", terms=(replace(claim.terms[0], kind="interval", value=sizes or ()),)
        )
        if sizes and any(interval.judge(width, place) == HELD for place in places):
            return HELD
    return Unresolved("nothing that the sentence links to shows it")


def _lies_in(key: Key, notes: Pointed) -> bool:
    """Whether all notes of a link are notes of a key."""
    return all(int(p) % 12 in key.working_semitones for _, tone in notes.tones for p in tone.path)


def _places(claim: Claim, notes: Pointed) -> Iterator[Pointed]:
    """The links, the bar that is named, the bars they lie in, their licks and those these are varied from."""
    links = (replace(notes, others=()), *notes.others)
    yield from links
    value = claim.about.value if claim.about is not None else None
    for one in links:
        if isinstance(value, Numbers):
            yield replace(one, at=AddressRange(Address(value.first), Address(value.last)))
        elif one.at is not None:
            yield replace(one, at=AddressRange(Address(one.at.first.bar), Address(one.at.last.bar)))
    if claim.terms[0].kind in _NEAR and any(one.at is not None for one in links):
        return
    for one in links:
        for subject in _line(one.subject):
            yield Pointed(subject, None)


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
