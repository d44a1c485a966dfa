"""A degree that the note is not.

Degrees count from the chord in force: the root, the flat seven of E7. Words may name another chord
(``the third of A``) or the key (``the second of the key``). A note that leans into the next chord within a
beat may count from that one. A blue third or seventh counts from the key as well, and so does what comes
after ``In the key of A``; a note, its degree and the chord it counts from need no notes at all.

Why it matters: the degree is what the student takes along to the next key, and to all twelve.

What to do: count again, or say what it counts from: ``of A7``, ``of the key``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import chord_of, degree_classes, key_classes
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.matching import Test, find_missing
from lickwright.checks.claims.pointed import Heard, Pointed, pitch_classes
from lickwright.checks.claims.saying import say_notes, say_place
from lickwright.checks.claims.sentence import KEY_FRAME
from lickwright.checks.claims.term import Degree, Term
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.wording import degree_name
from lickwright.model.music import Tone
from lickwright.terms.numbers import ORDINAL
from lickwright.theory.key import Key, parse_key
from lickwright.theory.pitch import PitchClass

_OF_KEY = re.compile(r" of (?:the|its|this) (?:home )?(?:key|scale)\b")
_OF_OTHER = re.compile(
    r" of (?:the|a|its) (?:first|second|third|last|next|new|old|other|coming|following|previous) "
)
_OF_A_SCALE = {"2": "second", "b2": "flat second", "b6": "flat sixth", "#4": "sharp fourth"}
"""Degrees that a scale and a chord call by two names."""
_NOUN = re.compile(rf"(?i)\b{ORDINAL} (string|fret|finger|note|bar|beat|time|position)s?\b")


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Count each degree that is said, in the order of the notes."""
    note = claim.beside.value if claim.beside is not None else None
    if isinstance(note, PitchClass) and claim.about is not None and not claim.inside:
        return _of_named(claim, claim.about, note, notes)
    if isinstance(note, PitchClass):
        here = [(h, t) for h, t in notes.tones if note.semitone in pitch_classes(t)]
        if not here or any(_fits(claim, claim.terms[0], notes, h, note.semitone) for h, _ in here):
            return HELD
        return _differs(claim, notes, here[0][0], note.semitone)
    if find_missing(notes, [_test(claim, term, notes) for term in claim.terms]) is None:
        return HELD
    if not notes.tones:
        return Unresolved("the notes have no pitch")
    if (other := _another_reading(claim, notes)) is not None:
        return other
    heard, tone = notes.tones[0]
    return _differs(claim, notes, heard, _top(tone))


def _of_named(claim: Claim, about: Term, note: PitchClass, notes: Pointed) -> Verdict:
    """``A, the third of D7``: arithmetic."""
    degree = claim.terms[0].value
    assert isinstance(degree, Degree)  # the kind of claim says so
    chords = chord_of(about, notes.around)
    if not chords or any(note.semitone in degree_classes(degree, chord) for chord in chords):
        return HELD
    label = degree_name(chords[0].degree_of(note.semitone))
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {note.spoken} is the {label} of {chords[0].display}",
        claim.terms[0],
        help=f"Write “the {label}”, or mend the note that is named",
    )


def _top(tone: Tone) -> int:
    return int(max(tone.path) if tone.bends else tone.path[0]) % 12


def _test(claim: Claim, term: Term, notes: Pointed) -> Test:
    return lambda heard, pitch: _fits(claim, term, notes, heard, pitch)


def _fits(claim: Claim, term: Term, notes: Pointed, heard: Heard, pitch: int) -> bool:
    degree = term.value
    assert isinstance(degree, Degree)  # the kind of claim says so
    key = notes.subject.piece.music.key
    about = claim.about
    if about is not None and isinstance(about.value, Key):
        return pitch in key_classes(degree, about.value)
    if about is None and _of_key(claim):
        return any(pitch in key_classes(degree, k) for k in (key, *_keys_named(claim, degree)))
    chords = notes.chords(heard) if about is None else chord_of(about, notes.harmony)
    if about is None and _OF_OTHER.match(claim.link.passage.text, claim.terms[-1].end):
        chords = notes.around
    framed = [k for k in (*_frames(claim), *((key,) if _is_blue(term) else ())) if about is None]
    if any(pitch in key_classes(degree, k) for k in framed):
        return True
    if not chords:
        return pitch in key_classes(degree, key)
    return any(pitch in degree_classes(degree, chord) for chord in chords)


def _is_blue(term: Term) -> bool:
    return term.text.casefold().startswith("blue")


def _frames(claim: Claim) -> Iterator[Key]:
    """The key that a sentence begins with: ``In the key of A, …``, ``In A, …``."""
    opening = KEY_FRAME.findall(claim.link.passage.text[: claim.terms[0].start])
    for term in find_terms(opening[-1], letter=True) if opening else ():
        key = term.value if isinstance(term.value, Key) else parse_key(f"{term.value} major")
        if isinstance(key, Key) and term.kind in ("key", "tonality", "note"):
            yield key


def _of_key(claim: Claim) -> bool:
    """Whether the words count from the key: the tonic, the leading note, ``the second of the key``."""
    degree = claim.terms[0].value
    named = isinstance(degree, Degree) and degree.of == "key"
    return named or _OF_KEY.match(claim.link.passage.text, claim.terms[-1].end) is not None


def _keys_named(claim: Claim, degree: Degree) -> Iterator[Key]:
    """The keys that the sentence names, for a tonic or a leading note: it ``comes from D major``."""
    if degree.of == "key":
        yield from (t.value for t in find_terms(claim.link.sentence) if isinstance(t.value, Key))


def _another_reading(claim: Claim, notes: Pointed) -> Verdict | None:
    """``the third`` may leave out a string or a finger that the sentence names before."""
    degree = claim.terms[0].value
    if len(claim.terms) > 1 or not isinstance(degree, Degree) or degree.alter is not None:
        return None
    if claim.about is not None and not claim.inside:
        return None  # nothing but a degree is one of a chord
    text = claim.link.passage.text[: claim.terms[0].start]
    noun = _NOUN.findall(text)
    if not noun:
        several = claim.inside and degree.number in (2, 4) and claim.beside is None and claim.about is None
        alone = re.fullmatch(r"(?i)(?:the )?\w+", claim.link.words)
        return Unresolved("it may be a degree, or one of several things") if several and alone else None
    number = degree.number
    for _, tone in notes.tones:
        if number in {tone.string, tone.fret} or tone.finger == str(number):
            return HELD
    if any(number in {heard.sound.address.sound, heard.bar.number} for heard in notes.heard):
        return HELD
    return Unresolved(f"it may be a degree, or the {noun[-1]} that goes before")


def _differs(claim: Claim, notes: Pointed, heard: Heard, pitch: int) -> Differs:
    key = notes.subject.piece.music.key
    about = claim.about
    said = " ".join(term.text for term in claim.terms) if len(claim.terms) == 1 else claim.words
    counted = about.value if about is not None and isinstance(about.value, Key) else None
    if counted is None and about is None and (_of_key(claim) or _is_blue(claim.terms[0])):
        counted = key
    if counted is None and about is None:
        counted = next(_frames(claim), None)
    if counted is not None:
        real, of = counted.degree_of(pitch), f"of {counted.display}"
    else:
        chords = (notes.chords(heard) if about is None else chord_of(about, notes.harmony))[:1]
        real = chords[0].degree_of(pitch) if chords else key.degree_of(pitch)
        of = f"of {chords[0].display}" if chords else f"of {key.display}"
    term = claim.terms[0] if len(claim.terms) == 1 else None
    single = len(notes.heard) == 1 or claim.beside is not None
    label = _OF_A_SCALE.get(real, degree_name(real)) if counted is not None else degree_name(real)
    if single:
        name = _say(claim, notes, heard, pitch)
        message = f"the words say “{said}”, and {name} is the {label} {of}"
    else:
        message = f"the words say “{said}”, and {say_place(notes)} is {say_notes(notes)} over {of[3:]}"
    first = claim.terms[0].value
    hint = (
        f"Write “the {label}”, or say what it counts from" if single else "Count each from the chord in force"
    )
    if about is None and isinstance(first, Degree) and pitch in key_classes(first, key):
        hint = f"It is the {claim.terms[0].text} of the key: then say so"
    return Differs(message, term, hint, address=heard.sound.address)


def _say(claim: Claim, notes: Pointed, heard: Heard, pitch: int) -> str:
    if claim.beside is not None and isinstance(claim.beside.value, PitchClass):
        return claim.beside.value.spoken
    for index, tone in enumerate(heard.sound.tones, 1):
        for name in notes.subject.spelled.get((heard.sound.address, index), ()):
            if name.midi % 12 == pitch and tone.path:
                return name.name.spoken
    return str(heard.sound.address)


RULE = Rule(
    id="prose/degree",
    title="A degree that the note is not",
    severity=Severity.ERROR,
    source=Source(
        "language contract", "Section 5, Prose that points at notes: degrees against the chord of the moment"
    ),
    good=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 3:0 -\n```\n\n"
            "[Root, third, fifth](lick:example@1.1-1.3), and at last [the flat seven](lick:example@1.4)."
        ),
        Example(
            "```lick example\nE7 | 4:2 - 3:1 - 2:3 - - -\n```\n\n"
            "[D](lick:example@1.3) is the seventh of E7, and [that note](lick:example@1.3) is the "
            "fourth of the key."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 3:0 -\n```\n\n"
            "It ends on [the major seventh](lick:example@1.4).",
            ("major seventh",),
        ),
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 3:0 -\n```\n\n"
            "[C sharp](lick:example@1.2) is the fifth of A.",
            ("fifth",),
        ),
    ),
    survey=tell("degree", Severity.ERROR),
)
