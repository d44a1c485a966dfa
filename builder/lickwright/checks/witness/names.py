"""A note name of the second witness that is not the note that sounds.

The ``names`` row says which notes the author believes to have written. Octaves do not matter; a bend names
its last top, a harmonic what sounds, a dead note is ``*``. The same pitch by another name (D flat for C
sharp) is only noted, and only where chord or key leave no doubt.

Why it matters: a one-fret slip inside the key sounds right to every rule of harmony; only a second,
independent statement can catch it.

What to do: find out which of the two is right, the fret or the name.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_name, note_text
from lickwright.findings import Edit, Fix
from lickwright.model.strike import Dead
from lickwright.theory.pitch import PitchClass


def run(subject: Subject) -> Iterator[Finding]:
    """Compare every name that is given."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    key = subject.piece.music.key
    for written in subject.tones:
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
            yield from _spelling(subject, written, said)
            continue
        actual = note_name(sounding[-1], key, written.chord)
        yield subject.report(
            RULE,
            f"the names row says {said.spoken}, and {note_text(written.tone)} is {actual}",
            written.tone.span,
            written.sound.address,
            labels=written.label("names"),
            help=_help(subject, written, said),
        )


def _spelling(subject: Subject, written: Written, said: PitchClass) -> Iterator[Finding]:
    chord = {note.semitone: note for note in written.chord.pitch_classes}
    meant = chord.get(said.semitone) or subject.piece.music.key.spelling(said.semitone)
    if meant is None or meant == said or len(written.tone.path) > 1:
        return
    where = (
        f"in {written.chord.display}" if said.semitone in chord else f"in {subject.piece.music.key.display}"
    )
    yield subject.report(
        RULE,
        f"the names row says {said.spoken}, which {where} is written {meant.spoken}",
        written.tone.span,
        written.sound.address,
        severity=Severity.NOTE,
        labels=written.label("names"),
        help=f"Write {meant}",
        fix=_respelling(written, meant),
    )


def _respelling(written: Written, meant: PitchClass) -> Fix | None:
    entry = written.entry("names")
    if entry is None or entry.text != written.tone.name:
        return None
    return Fix(f"write {meant}", (Edit(entry, str(meant)),))


def _help(subject: Subject, written: Written, said: PitchClass) -> str:
    fret, guitar = written.tone.fret, subject.piece.music.guitar
    if fret is None or len(written.tone.path) > 1:
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
        Example("A7 | 5:0 - 5:4 - 4:2 - 4:4 -\n  names | A Db E F#", marks=("5:4",)),
        Example("A7 | 5:0 - 5:4 - 4:x - 4:4 -\n  names | A C# E F#", marks=("4:x",)),
    ),
    run=run,
    one_note=True,
)
