"""A string that the words name and the notes are not on.

Strings go by number (``the fourth string``), by their note (``the D string``, whatever the tuning) or by
where they lie (``the top string`` is the highest-sounding); ``open`` is held against the fret.

Why it matters: the hand goes where the words send it.

What to do: find out which is right, the words or the string of the note.
"""

from __future__ import annotations

from lickwright.checks.claims.certainty import weigh
from lickwright.checks.claims.claim import HELD, Claim, Differs, Unresolved, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.claims.saying import say_list, say_ordinal, say_place
from lickwright.checks.claims.term import StringName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.instrument.guitar import Guitar
from lickwright.model.music import Tone
from lickwright.theory.pitch import PitchClass


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for a tone on the string, open where that is said."""
    said = claim.terms[0].value
    assert isinstance(said, StringName)  # the kind of claim says so
    strings = strings_of(said, notes.subject.piece.music.guitar)
    text = claim.terms[0].text
    if said.number is not None and not strings:
        count = notes.subject.piece.music.guitar.strings
        message = f"the words say “{text}”, and the guitar has {count} strings"
        return Differs(message, claim.terms[0], f"Write a string from the first to the {say_ordinal(count)}")
    if not strings:
        return Unresolved(f"no string of this guitar is tuned to {said.note}")
    tones = [t for h in notes.heard for t in (*h.sound.tones, *(t for g in h.sound.grace for t in g.tones))]
    beside = claim.beside.value if claim.beside is not None else None
    if isinstance(beside, PitchClass):
        tones = [t for t in tones if beside.semitone in pitch_classes(t)] or tones
    there = [tone for tone in tones if tone.string in strings]
    if any(not said.open or tone.fret == 0 for tone in there):
        return HELD
    if not tones:
        return Unresolved("the link leads to no note")
    place = say_place(notes)
    named = "string" in text.casefold() or said.open
    severity = weigh(claim, notes) if named else Severity.QUERY
    if there and said.open:
        message = f"the words say “{text}”, and {place} is at {_frets(there)}"
        return Differs(message, claim.terms[0], "Leave “open” out, or write fret 0 in the notes", severity)
    on = say_list([say_ordinal(string) for string in sorted({tone.string for tone in tones})])
    plural = "string" if len({tone.string for tone in tones}) == 1 else "strings"
    return Differs(
        f"the words say “{text}”, and {place} is on the {on} {plural}",
        claim.terms[0],
        f"Write “the {on} {plural}”, or mend the string in the notes",
        severity,
    )


def strings_of(said: StringName, guitar: Guitar) -> frozenset[int]:
    """Return the strings that a name may mean on a guitar; none where there is no such string."""
    every = range(1, guitar.strings + 1)
    if said.note is not None:
        opens = {
            string: {guitar.tuning.open(string).midi % 12, guitar.open_midi(string) % 12} for string in every
        }
        named = [string for string in every if said.note.semitone in opens[string]]
        if said.number is not None and named:
            return frozenset({named[0] if said.number == 1 else named[-1]})
        return frozenset(named)
    if said.number is None:
        return frozenset(every)
    number = guitar.strings if said.number == -1 else said.number
    return frozenset({number}) & frozenset(every)


def _frets(tones: list[Tone]) -> str:
    frets = sorted({tone.fret for tone in tones if tone.fret is not None})
    return "the " + say_list([say_ordinal(fret) for fret in frets]) + " fret" if frets else "no fret"


RULE = Rule(
    id="prose/string",
    title="A string that the words name and the notes are not on",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: strings"),
    good=(
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\n"
            "From [the open fourth string](lick:example@1.1) to [D on the second](lick:example@1.4)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\n"
            "From [the open fifth string](lick:example@1.1).",
            ("open fifth string",),
        ),
        Example(
            "```lick example\nD | 4:0 - 4:4 - 3:2 - 2:3 -\n```\n\nUp to [the top string](lick:example@1.4).",
            ("top string",),
        ),
    ),
    survey=tell("string", Severity.ERROR),
)
