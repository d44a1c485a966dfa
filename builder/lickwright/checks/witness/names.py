"""A note name of the second witness that is not the note that sounds.

The ``names`` row says which notes the author believes to have written. Octaves do not matter; a bend names
its last top, a harmonic what sounds, a dead note is ``*``. The same pitch by another name (D flat for C
sharp) is no other note: that is a matter of spelling. A row that has slipped by a sound, and a bar that
sounds higher or lower than its names throughout, are told once and not note by note; so are two notes
side by side that have each other's names.

Why it matters: a one-fret slip inside the key sounds right to every rule of harmony; only a second,
independent statement can catch it.

What to do: find out which of the two is right, the fret or the name.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.checks.witness_exchange import find_exchanged, tell_exchanged
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_text, say_pitch
from lickwright.model.strike import Dead, Fretted
from lickwright.theory.pitch import PitchClass


def run(subject: Subject) -> Iterator[Finding]:
    """Compare every name that is given."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    slips = subject.slips("names")
    pairs = find_exchanged(subject, "names")
    for one, two in pairs:
        yield tell_exchanged(subject, RULE, "names", one, two)
    exchanged = {id(written) for pair in pairs for written in pair}
    for written in subject.tones:
        if written.voice in slips or id(written) in exchanged:
            continue
        said = None if written.tone.name is None else PitchClass.parse(written.tone.name)
        sounding = top_pitch(written.tone)
        if said is not None and isinstance(written.tone.head, Dead):
            yield subject.report(
                RULE,
                f"the names row says {said.spoken}, and {note_text(written.tone)} is a dead note:"
                " it has no pitch",
                written.tone.span,
                written.sound.address,
                labels=written.label("names"),
                help="Write * under a dead note",
            )
        if said is None or not sounding:
            continue
        if said.semitone in {pitch % 12 for pitch in sounding}:
            continue
        actual = subject.name_at(written.sound.address, written.index, sounding[0], written.chord)
        yield subject.report(
            RULE,
            f"the names row says {said.spoken}, and {note_text(written.tone)} is"
            f" {say_pitch(actual, sounding)}",
            written.tone.span,
            written.sound.address,
            labels=written.label("names"),
            help=_help(subject, written, said),
        )


def _help(subject: Subject, written: Written, said: PitchClass) -> str:
    fret, guitar = written.tone.fret, subject.piece.music.guitar
    if fret is None or len(written.tone.path) > 1 or not isinstance(written.tone.head, Fretted):
        return "Look which of the two is right"
    sounding = top_pitch(written.tone)[-1]
    away = (said.semitone - sounding + 5) % 12 - 5
    if guitar.has_fret(fret + away):
        return f"{written.tone.string}:{fret + away} would be {said.spoken}"
    return "Look which of the two is right"


RULE = Rule(
    id="witness/names",
    title="A note name that is not the note",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Rows: the second witness"),
    good=(
        Example("A7 | 5:0 - 5:4 - 4:2 - 4:4 -\n  names | A C# E F#"),
        Example("A7 | 3:7b9 - 2:5 - 3:6 - 4:7 -\n  names | E E C# A"),
        Example("A | 2:2+1:0 - - - 5:<12> - - -\n  names | C#+E A"),
    ),
    bad=(
        Example("key: C major\n\nC | 3:0 - 2:1 - 2:3 - 1:0 -\n  names | G C E E", marks=("2:3",)),
        Example("A7 | 5:0 - 5:4 - 4:x - 4:4 -\n  names | A C# E F#", marks=("4:x",)),
        Example("A7 | 5:0 - 4:4 h 4:2 3:2 - 2:2 -\n  names | A E F# A C#", marks=("4:2",)),
    ),
    run=run,
    one_note=True,
)
