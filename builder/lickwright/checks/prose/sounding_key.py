"""A capo, its shapes and the key that sounds do not come out.

What sounds is the key of the lick; the shapes are as many half steps lower as the capo is high. Words about
one of the three are held against it.

Why it matters: with the capo a fret off the student is out of tune with everybody.

What to do: count the half steps from the shapes to the key that sounds.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_midi
from lickwright.checks.claims.term import Numbers
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Hold capo, shapes or sounding key against those of the piece."""
    term = claim.terms[0]
    music = notes.subject.piece.music
    capo, tonic = music.guitar.capo, music.key.tonic
    if isinstance(term.value, Numbers):
        if capo == term.value.first:
            return HELD
        return Differs(
            f"the words say “{term.text}”, and the capo is {f'at fret {capo}' if capo else 'off'}",
            term,
            help=f"Write {f'capo {capo}' if capo else 'that there is no capo'}, or mend the capo of the lick",
        )
    assert isinstance(term.value, PitchClass)  # the kind of claim says so
    if term.kind == "sounding":
        if term.value.semitone == tonic.semitone:
            return HELD
        message = f"the words say it {term.text}, and it sounds in {music.key.display}"
        return Differs(message, term, help=f"Write {tonic.spoken}, or mend the key of the lick")
    if term.value.semitone == (tonic.semitone - capo) % 12:
        return HELD
    shapes = (
        say_midi(notes.tones[0][1].path[0] * 0 + tonic.semitone - capo + 12, notes) if notes.tones else ""
    )
    return Differs(
        f"the words say “{term.text}”, and capo {capo} makes {tonic.spoken} of {shapes} shapes",
        term,
        help=f"Write {shapes} shapes, or mend the capo",
    )


_MANIFEST = """[course]
title = "Example"
author = "An author"
key = "Bb major"

[guitar]
capo = 3

[[unit]]
title = "One"
lessons = ["example.md"]
"""
_LICK = "```lick example\nBb | 6:3 - 5:2 - 5:0 - 4:0 -\n```\n\n"

RULE = Rule(
    id="prose/sounding-key",
    title="A capo, its shapes and the key that sounds do not come out",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Capo: key and chords name what sounds; arithmetic"),
    good=(
        Example(
            f"{_LICK}With capo 3, G shapes, [the lick](lick:example) sounds in B flat.", course=_MANIFEST
        ),
        Example(
            f"{_LICK}With the capo two frets lower [the lick](lick:example) is as easy.", course=_MANIFEST
        ),
    ),
    bad=(
        Example(
            f"{_LICK}With capo 3 and G shapes [the lick](lick:example) sounds in A.",
            ("sounds in A",),
            _MANIFEST,
        ),
        Example(f"{_LICK}With capo 2 [the lick](lick:example) sounds in B flat.", ("capo 2",), _MANIFEST),
    ),
    survey=tell("sounding-key", Severity.ERROR),
)
