"""A scale or a device that the words name and the notes do not follow.

``chromatic`` wants two half steps the same way, or a note outside the key; a scale, all notes inside it; an
``arpeggio``, notes of the chord but for a few.

Why it matters: the word is what the student practises next in all keys.

What to do: mend the word, or look for the note that leaves the scale.
"""

from __future__ import annotations

from itertools import pairwise

from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.lexer import find_terms
from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.checks.claims.saying import name_tone, say_list, say_midi, say_notes, say_place
from lickwright.checks.claims.term import ScaleName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.music import Tone
from lickwright.theory.pitch import PitchClass
from lickwright.theory.scale import SCALES, Scale

ARPEGGIO = "prose-arpeggio"


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Hold the notes against what is said of them."""
    said = claim.terms[0].value
    if not notes.tones:
        return Unresolved("the notes have no pitch")
    if isinstance(said, ScaleName):
        return _scale(claim, said, notes)
    fits = _chromatic(notes) if said == "chromatic" else _arpeggio(notes)
    if fits:
        return HELD
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_place(notes)} is {say_notes(notes)}",
        claim.terms[0],
        help="Link two half steps that go one way"
        if said == "chromatic"
        else "Link notes of the chord alone",
    )


def _scale(claim: Claim, said: ScaleName, notes: Pointed) -> Verdict:
    kinds = [said.kind] if said.kind in SCALES else [k for k in SCALES if k.endswith(said.kind)]
    if not kinds:
        return Unresolved(f"the table of scales has no {said.kind}")
    sounding = [int(tone.path[-1]) for _, tone in notes.tones]
    closest: list[int] | None = None
    for tonic in _tonics(said, notes):
        for kind in kinds:
            scale = Scale(tonic, kind)
            outside = [pitch for pitch in sounding if pitch % 12 not in scale.semitones]
            if not outside:
                return HELD
            if closest is None or len(outside) < len(closest):
                closest = outside
    names = list(dict.fromkeys(_name(claim, notes, *notes.tones[sounding.index(p)]) for p in closest or ()))
    plural = "is" if len(names) == 1 else "are"
    return Differs(
        f"the words say “{claim.terms[0].text}”, and {say_list(names)} {plural} not in it",
        claim.terms[0],
        help=f"Name a scale that holds {say_list(names)}, or mend the notes",
    )


def _name(claim: Claim, notes: Pointed, heard: Heard, tone: Tone) -> str:
    """The last pitch of a tone as its author spells it: in the sentence, in the names row, on the staff."""
    pitch = tone.path[-1]
    said = [term.value for term in find_terms(claim.link.sentence)]
    names = (*said, PitchClass.parse(tone.name or ""), *name_tone(notes, heard, tone)[-1:])
    fits = (name for name in names if isinstance(name, PitchClass) and name.semitone == int(pitch) % 12)
    name = next(fits, None)
    return say_midi(pitch, notes) if name is None else name.spoken


def _tonics(said: ScaleName, notes: Pointed) -> tuple[PitchClass, ...]:
    """The tonic that is said, else the key's and the roots of the chords."""
    if said.tonic is not None:
        return (said.tonic,)
    key = notes.subject.piece.music.key
    return tuple(dict.fromkeys((key.tonic, *(chord.root for chord in notes.harmony))))


def _chromatic(notes: Pointed) -> bool:
    key = notes.subject.piece.music.key
    if any(int(p) % 12 not in key.working_semitones for _, tone in notes.tones for p in tone.path):
        return True
    for voice in notes.voices:
        line = [max(h.tones, key=lambda t: t.path[-1]).path[-1] for h in voice if h.tones]
        steps = [b - a for a, b in pairwise(line)]
        if any(a == b and abs(a) == 1 for a, b in pairwise(steps)):
            return True
    return False


def _arpeggio(notes: Pointed) -> bool:
    inside = sum(
        any(int(tone.path[-1]) % 12 in chord.semitones for chord in notes.chords(heard))
        for heard, tone in notes.tones
    )
    return inside >= notes.subject.limits[ARPEGGIO] * len(notes.tones)


RULE = Rule(
    id="prose/scale",
    title="A scale or a device that the words name and the notes do not follow",
    severity=Severity.QUERY,
    source=Source(
        "common practice", "Scales by their degrees; the share of an arpeggio is our own threshold"
    ),
    good=(
        Example(
            "```lick example\nA7 | 5:0 5:2 5:3 5:4 4:2 - 3:2 -\n```\n\n"
            "[A chromatic walk](lick:example@1.1-1.4), then [an arpeggio](lick:example@1.4-1.6)."
        ),
        Example(
            "```lick example\nA | 5:0 5:2 5:4 4:2 4:4 - 3:2 -\n```\n\n"
            "[A major pentatonic](lick:example) and no more."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA | 5:0 5:2 5:4 4:0 4:2 - 3:2 -\n```\n\n"
            "[A chromatic walk](lick:example@1.1-1.4).",
            ("chromatic",),
        ),
        Example(
            "```lick example\nA | 5:0 5:2 5:4 4:0 4:2 - 3:2 -\n```\n\n"
            "It is [A major pentatonic](lick:example).",
            ("A major pentatonic",),
        ),
    ),
    survey=tell("scale", Severity.QUERY),
)
