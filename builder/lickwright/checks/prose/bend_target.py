"""A bend that does not go as far as the words say, or not to the degree they name.

``a whole-step bend`` is held against the fret that is bent to; ``bend it up to the root`` against the degree
of the note that is reached, over the chord in force; ``the bend goes from D to E`` against both its ends.
``Push [the third string] up a half step`` is a bend, too.

Why it matters: a bend is aimed by ear, and the ear is told where by the words.

What to do: find out which is right, the target of the bend or the words.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import floor

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import chord_of, degree_classes, key_classes
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import say_list, say_midi, say_place
from lickwright.checks.claims.term import Degree, Movement
from lickwright.checks.prose import technique
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.checks.wording import degree_name
from lickwright.model.music import Tone
from lickwright.model.strike import BendKind, Late
from lickwright.terms.bends import say_amount
from lickwright.theory.chord import Chord
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare how far the bends of the link go, and where to."""
    said = claim.terms[0].value
    assert isinstance(said, Movement)  # the kind of claim says so
    bends = [(heard, *bend) for heard, tone in _tones(notes) for bend in _bends(tone)]
    place = say_place(notes)
    if not bends:
        return Differs(
            f"the words say “{claim.terms[0].text}”, and nothing is bent at {place}",
            claim.terms[0],
            help="Link the note that is bent, or write the bend into the notes",
        )
    if said.name != "bend":
        kind = technique.judge(replace(claim, kind="technique", terms=claim.terms[:1]), notes)
        if isinstance(kind, Differs):
            return kind
    if said.amount is not None and all(size != said.amount for _, size, _ in bends):
        real = say_list(list(dict.fromkeys(say_amount(size) for _, size, _ in bends)))
        return Differs(
            f"the words say “{claim.terms[0].text}”, and the bend at {place} goes {real}",
            claim.terms[0],
            help=f"Write {real}, or mend the fret it is bent to",
        )
    target = claim.terms[1] if len(claim.terms) > 1 else None
    if len(claim.terms) > 2:
        return _from_to(claim, notes)
    if target is not None and isinstance(target.value, PitchClass):
        if any(floor(top) % 12 == target.value.semitone for _, _, top in bends):
            return HELD
        reached = say_list(list(dict.fromkeys(say_midi(top, notes) for _, _, top in bends)))
        return Differs(
            f"the words say it is bent to {target.text}, and it reaches {reached}",
            target,
            f"Write {reached}, or mend the bend",
        )
    if target is None or not isinstance(target.value, Degree):
        return HELD
    for heard, _, top in bends:
        if _reaches(target.value, claim, notes, heard, floor(top) % 12):
            return HELD
    heard, _, top = bends[0]
    if top.denominator != 1:
        return Unresolved("a quarter tone is no degree")
    chords = _chords(claim, notes, heard)
    key = notes.subject.piece.music.key
    degree = degree_name(chords[0].degree_of(int(top)) if chords else key.degree_of(int(top)))
    of = chords[0].display if chords else key.display
    real = f"{say_midi(top, notes)}, the {degree} of {of}"
    message = f"the words say it is bent to the {target.text}, and it reaches {real}"
    hint = _hint(target.value, chords, top) or "Mend the fret it is bent to"
    return Differs(
        message, target, f"Write “the {degree}”, or: {hint[0].lower()}{hint[1:]}", address=heard.sound.address
    )


def _from_to(claim: Claim, notes: Pointed) -> Verdict:
    """``the bend goes from D to E``: one of the bends there."""
    target, origin = claim.terms[1].value, claim.terms[2].value
    assert isinstance(target, PitchClass)  # the claim is made of two notes
    assert isinstance(origin, PitchClass)
    ends = [(tone.path[0], top) for _, tone in _tones(notes) for _, top in _bends(tone)]
    if any((int(a) % 12, floor(b) % 12) == (origin.semitone, target.semitone) for a, b in ends):
        return HELD
    real = say_list(
        list(dict.fromkeys(f"from {say_midi(a, notes)} to {say_midi(b, notes)}" for a, b in ends))
    )
    return Differs(
        f"the words say from {origin.spoken} to {target.spoken}, and what is bent at {say_place(notes)}"
        f" goes {real}",
        claim.terms[1],
        help=f"Write {real}, or mend the bend",
    )


def _tones(notes: Pointed) -> Iterator[tuple[Heard, Tone]]:
    for heard in notes.heard:
        for tone in (*heard.sound.tones, *(t for grace in heard.sound.grace for t in grace.tones)):
            if tone.path:
                yield heard, tone


def _bends(tone: Tone) -> Iterator[tuple[Fraction, Fraction]]:
    """How far each bend of a tone goes, in half steps, and the pitch it reaches."""
    if isinstance(tone.head, Late):
        if tone.head.bend.kind is not BendKind.RELEASE:
            yield abs(tone.path[-1] - tone.path[0]), tone.path[-1]
        return
    if tone.fret is None:
        return
    offset = len(tone.path) - len(tone.bends)
    for number, bend in enumerate(tone.bends):
        if bend.kind is not BendKind.RELEASE:
            yield bend.to - tone.fret, tone.path[min(offset + number, len(tone.path) - 1)]


def _chords(claim: Claim, notes: Pointed, heard: Heard) -> tuple[Chord, ...]:
    return notes.chords(heard) if claim.about is None else chord_of(claim.about, notes.harmony)


def _reaches(degree: Degree, claim: Claim, notes: Pointed, heard: Heard, pitch: int) -> bool:
    chords = _chords(claim, notes, heard)
    if degree.of == "key" or not chords:
        return pitch in key_classes(degree, notes.subject.piece.music.key)
    return any(pitch in degree_classes(degree, chord) for chord in chords)


def _hint(degree: Degree, chords: tuple[Chord, ...], top: Fraction) -> str:
    if not chords:
        return ""
    away = min(((pc - int(top) + 6) % 12 - 6 for pc in degree_classes(degree, chords[0])), key=abs)
    if abs(away) > 2:
        return ""
    word = "higher" if away > 0 else "lower"
    return f"{say_amount(Fraction(abs(away))).capitalize()} {word} it would be"


RULE = Rule(
    id="prose/bend-target",
    title="A bend that does not go where the words say",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: bends and degrees"),
    good=(
        Example(
            "```lick example\nkey: E major\n\nE7 | 3:7b9 - - - 2:5 - - -\n```\n\n"
            "[Bend it a whole step to the root](lick:example@1.1)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 3:7b9 - - - 2:5 - - -\n```\n\n[Bend it up to the root](lick:example@1.1).",
            ("root",),
        ),
        Example(
            "```lick example\nA7 | 3:7b9 - - - 2:5 - - -\n```\n\n[A half-step bend](lick:example@1.1).",
            ("half-step bend",),
        ),
    ),
    survey=tell("bend-target", Severity.ERROR),
)
