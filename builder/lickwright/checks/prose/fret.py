"""A fret that the words name and the notes are not at.

Frets count from the capo, as they do in the notes. A bend may be named by its fret or by the fret whose
pitch it reaches, a harmonic by the fret it is touched over.

Why it matters: the hand goes where the words send it.

What to do: find out which is right, the words or the fret of the note.
"""

from __future__ import annotations

from fractions import Fraction

from lickwright.checks.claims.certainty import weigh
from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.claims.saying import say_list, say_ordinal, say_place
from lickwright.checks.claims.term import Numbers
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.music import Tone
from lickwright.model.strike import Harmonic
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for a tone at the fret."""
    said = claim.terms[0].value
    assert isinstance(said, Numbers)  # the kind of claim says so
    tones = [t for h in notes.heard for t in (*h.sound.tones, *(t for g in h.sound.grace for t in g.tones))]
    beside = claim.beside.value if claim.beside is not None else None
    if isinstance(beside, PitchClass):
        tones = [t for t in tones if beside.semitone in pitch_classes(t)] or tones
    frets = {fret for tone in tones for fret in frets_of(tone)}
    if {said.first, said.last} <= frets:
        return HELD
    if not frets:
        return Unresolved("the notes have no fret")
    held = sorted({tone.fret for tone in tones if tone.fret is not None})
    at = say_list(["open" if fret == 0 else f"at the {say_ordinal(fret)} fret" for fret in held])
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is {at}",
        claim.terms[0],
        f"Write “{at}”, or mend the fret in the notes",
        weigh(claim, notes) if "fret" in claim.terms[0].text.casefold() else Severity.QUERY,
    )


def frets_of(tone: Tone) -> frozenset[int]:
    """Return the frets by which a tone may be named."""
    found: set[Fraction | int] = set() if tone.fret is None else {tone.fret}
    found.update(bend.to for bend in tone.bends)
    if isinstance(tone.head, Harmonic):
        found.add(round(tone.head.touch))
    return frozenset(int(fret) for fret in found)


RULE = Rule(
    id="prose/fret",
    title="A fret that the words name and the notes are not at",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: frets"),
    good=(
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\n"
            "[A at the second fret](lick:example@1.3), then [D](lick:example@1.4) at the third fret."
        ),
    ),
    bad=(
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\n[A at the third fret](lick:example@1.3).",
            ("third fret",),
        ),
    ),
    survey=tell("fret", Severity.ERROR),
)
