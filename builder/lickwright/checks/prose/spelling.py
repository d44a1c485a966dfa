"""A note that the words and the staff call by two names.

The words name the note that sounds, and by another of its names than the staff writes over them:
A sharp for what is printed as B flat. A name that the chord or the names row gives it is left in peace.

Why it matters: a reader looks for an A sharp on the staff, and there is none.

What to do: write the name that is printed, or look why the staff prints it so: the chord, the key.
"""

from __future__ import annotations

from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Heard, Pointed, pitch_classes
from lickwright.checks.claims.saying import name_tone
from lickwright.checks.prose.pitch import names_of
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.music import Tone
from lickwright.terms.notes import read_note
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Compare each name with those of the tones that it may mean."""
    for term, said in zip(claim.terms, names_of(claim), strict=True):
        here = [(heard, tone) for heard, tone in notes.tones if said.semitone in pitch_classes(tone)]
        if not here or any(_may_be(said, heard, tone, notes) for heard, tone in here):
            continue
        heard, tone = here[0]
        written = next((n for n in name_tone(notes, heard, tone) if n.semitone == said.semitone), None)
        if written is None or written == said:
            continue
        return Differs(
            f"the words say {said.spoken}, and {heard.sound.address} is written {written.spoken}",
            term,
            help=f"Write {written.spoken}",
            address=heard.sound.address,
            write=_like(term.text, written),
        )
    return HELD


def _may_be(said: PitchClass, heard: Heard, tone: Tone, notes: Pointed) -> bool:
    chords = notes.chords(heard)
    if any(said in chord.pitch_classes for chord in chords):
        return True
    if notes.subject.piece.music.key.spelling(said.semitone) == said:
        return True
    if tone.name is not None and read_note(tone.name) == (said.letter, said.alter):
        return True
    return said in name_tone(notes, heard, tone)


def _like(text: str, name: PitchClass) -> str:
    """The name in the way the author writes names."""
    if "♯" in text or "♭" in text:
        return name.display
    return name.spoken if " " in text else str(name)


RULE = Rule(
    id="prose/spelling",
    title="A note that the words and the staff call by two names",
    severity=Severity.QUERY,
    source=Source("common practice", "One note, one name, on the staff and in the words about it"),
    good=(
        Example(
            "```lick example\nkey: F major\n\nC7 | 3:5 - 3:3 - 3:2 - 3:0 -\n```\n\n"
            "Down by [B flat](lick:example@1.2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nkey: F major\n\nC7 | 3:5 - 3:3 - 3:2 - 3:0 -\n```\n\n"
            "Down by [A sharp](lick:example@1.2).",
            ("A sharp",),
        ),
    ),
    survey=tell("spelling", Severity.QUERY),
)
