"""A chord that the words name and neither the harmony nor the notes are.

``the D chord`` is right where D is the chord in force, under whatever name; ``a D six-nine`` where the notes
of the link spell it; ``a minor chord`` where one on any root is in force or spelled. The fifth may be
missing, the third and the note that names the chord may not.

Why it matters: the name is what the student takes along, and tells the bass player.

What to do: mend the name, or look for the note that does not belong.
"""

from __future__ import annotations

from collections.abc import Sequence

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.harmony import chord_of, fits_harmony, spells
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed
from lickwright.checks.claims.saying import say_list, say_notes, say_place
from lickwright.checks.claims.term import ChordName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.theory.chord import Chord
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass
from lickwright.theory.quality import QUALITIES

_LETTERS = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
"""A name for each root."""


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Hold the name against the chords in force, then against the notes."""
    term = claim.terms[0]
    key = notes.subject.piece.music.key
    harmony = notes.harmony or tuple(c for h in notes.heard for c in notes.chords(h))
    if term.kind == "quality":
        return _quality(str(term.value), claim, notes, harmony)
    if fits_harmony(term, harmony) or (isinstance(term.value, Key) and term.value.semitones == key.semitones):
        return HELD
    sounding = frozenset().union(*(heard.pitch_classes for heard in notes.heard))
    if not sounding:
        return Unresolved("the notes have no pitch")
    loose = isinstance(term.value, ChordName) and term.value.plain
    reasons: tuple[str, ...] = ()
    for chord in chord_of(term, harmony):
        reasons = spells(chord, sounding, loose=loose)
        if not reasons:
            return HELD
    over = ", ".join(dict.fromkeys(chord.display for chord in harmony))
    where = f", over {over}" if over else ""
    return Differs(
        f"the words say “{term.text}”, and {say_place(notes)} is {say_notes(notes)}{where}",
        term,
        help=_advice(reasons, harmony),
    )


_TRIADS = {"major": "major", "minor": "m", "diminished": "dim", "augmented": "aug"}


def _quality(said: str, claim: Claim, notes: Pointed, harmony: Sequence[Chord]) -> Verdict:
    """``a minor chord``: one in force, or one that the notes spell on any root."""
    triad = QUALITIES[_TRIADS[said]]
    if any(triad.tones <= chord.quality.tones for chord in harmony):
        return HELD
    sounding = frozenset().union(*(heard.pitch_classes for heard in notes.heard))
    roots = (root for root in map(PitchClass.parse, _LETTERS) if root and root.semitone in sounding)
    if any(not spells(Chord(root, triad), sounding) for root in roots):
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is {say_notes(notes)}",
        claim.terms[0],
        help=_advice((), harmony),
    )


def _advice(reasons: Sequence[str], harmony: Sequence[Chord]) -> str:
    """What keeps the notes from spelling it, and the chord that is in force."""
    why = f"{reasons[0][0].upper()}{reasons[0][1:]}: " if reasons else ""
    chords = say_list(list(dict.fromkeys(chord.display for chord in harmony)))
    write = f"write {chords}, or name what the notes spell" if chords else "name what the notes spell"
    return f"{why}{write}" if why else f"{write[0].upper()}{write[1:]}"


RULE = Rule(
    id="prose/chord",
    title="A chord that the words name and the notes are not",
    severity=Severity.ERROR,
    source=Source("common practice", "Chords by their stacked intervals; which tones may be left out"),
    good=(
        Example(
            "```lick example\nD | 4:0 4:4 3:2 2:0 1:0 - 2:3 -\n```\n\n"
            "It spells [a D six-nine](lick:example@1.1-1.5)."
        ),
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n```\n\n"
            "[The A chord](lick:example@1), with a sixth."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n```\n\nIt spells [a D six-nine](lick:example@1).",
            ("D six-nine",),
        ),
        Example(
            "```lick example\nA7 | 5:0 - 5:4 - 4:2 - 4:4 -\n```\n\n[The E chord](lick:example@1) lies in it.",
            ("E chord",),
        ),
    ),
    survey=tell("chord", Severity.ERROR),
)
