"""Something that a sentence names beside its links, and nothing near them has it.

A note, a string, a fret or a technique that stands outside the links is looked for in the bars of the links
and beside them, a note in their chords as well, a grace note among the grace notes alone: where the lick and
the one it is varied from have it nowhere, it is found, where they have it farther away, it is listed as not
checked. A chord, a degree, a count, a finger, a stroke, a position, an interval is held by any place that the
sentence may speak of, and else listed. What is denied, supposed or compared is left alone.

Why it matters: a slip of the pen in the middle of a sentence is found by no ear.

What to do: mend the word; where it speaks of another lick, link that one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
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
from lickwright.model.music import MusicBar, Sound, Tone
from lickwright.terms.intervals import read_interval
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass

Has = Callable[[Subject, Sequence[MusicBar]], bool]
"""Whether bars of a piece have what is named."""


_GRACE = re.compile(r"(?i)\bgrace notes?(?: [a-z]+){0,4} (?:from|on) (?:the )?$")
"""``a grace note hammered into it from G``."""


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for it near the links, then in everything that the sentence may speak of."""
    term = claim.terms[0]
    what = "not used in"
    match term.value:
        case PitchClass() if _GRACE.search(claim.link.passage.text[: term.start]):
            said, has = f"a grace note {term.value.spoken}", _has_grace(term.value)
        case PitchClass():
            said, has = term.value.spoken, _has_note(term.value)
            what = "in no note, chord or key of"
        case StringName():
            said, has = f"the {term.text}", _has_string(term.value)
        case Numbers(first, _):
            said, has = f"the {term.text}", _has_fret(first)
        case Movement(name, _):
            said, has = f"a {term.text}", _has_technique(name)
        case _:
            return _spoken(claim, notes)
    links = (notes, *notes.others)
    if any(has(subject, _near(one, subject, claim)) for one in links for subject in _line(one.subject)):
        return HELD
    if any(has(subject, subject.piece.music.bars) for one in links for subject in _line(one.subject)):
        return Unresolved(f"“{claim.link.target}” has it, though not near the link")
    return Differs(
        f"the words name {said}, which is {what} “{claim.link.target}”",
        term,
        help=f"Mend the word, or link the lick that has {said}",
    )


def _near(link: Pointed, subject: Subject, claim: Claim) -> Sequence[MusicBar]:
    """The bars of a link and those beside them, and the bar that the words name; all for a whole lick."""
    bars = subject.piece.music.bars
    at = link.at
    if at is None:
        return bars
    spans = [(at.first.bar - 1, at.last.bar + 1)]
    named = claim.about.value if claim.about is not None else None
    if isinstance(named, Numbers):
        spans.append((named.first, named.last))
    return [bar for bar in bars if any(first <= bar.number <= last for first, last in spans)]


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
    if "pickup" in claim.link.passage.text:
        value = Numbers(0, 0)
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


def _sounds(bars: Sequence[MusicBar]) -> Iterator[Sound]:
    return (sound for bar in bars for line in bar.lines for sound in line.sounds)


def _tones(bars: Sequence[MusicBar]) -> Iterator[Tone]:
    for sound in _sounds(bars):
        yield from sound.tones
        yield from (tone for grace in sound.grace for tone in grace.tones)


def _has_technique(name: str) -> Has:
    return lambda _, bars: any(name in used(sound) for sound in _sounds(bars))


def _has_fret(fret: int) -> Has:
    return lambda _, bars: any(fret in frets_of(tone) for tone in _tones(bars))


def _has_string(said: StringName) -> Has:
    def has(subject: Subject, bars: Sequence[MusicBar]) -> bool:
        strings = strings_of(said, subject.piece.music.guitar)
        return any(tone.string in strings and (not said.open or tone.fret == 0) for tone in _tones(bars))

    return has


def _has_grace(said: PitchClass) -> Has:
    def has(_: Subject, bars: Sequence[MusicBar]) -> bool:
        graces = (grace for sound in _sounds(bars) for grace in sound.grace)
        return any(said.semitone in pitch_classes(tone) for grace in graces for tone in grace.tones)

    return has


def _has_note(said: PitchClass) -> Has:
    def has(subject: Subject, bars: Sequence[MusicBar]) -> bool:
        if any(said.semitone in chord.symbol.semitones for bar in bars for chord in bar.chords):
            return True
        if any(said.semitone in pitch_classes(tone) for tone in _tones(bars)):
            return True
        every = subject.piece.music.bars  # a letter may be a chord that comes, or has been
        chords = [chord.symbol for bar in every for chord in bar.chords]
        if any(isinstance(c, Chord) and c.root.semitone == said.semitone for c in chords):
            return True
        whole = len(bars) == len(subject.piece.music.bars)
        return whole and said.semitone in subject.piece.music.key.working_semitones

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
