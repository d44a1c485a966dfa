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
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_text, say_pitch
from lickwright.findings import Edit, Fix, Label
from lickwright.model.strike import Dead, Fretted
from lickwright.theory.pitch import PitchClass


def run(subject: Subject) -> Iterator[Finding]:
    """Compare every name that is given."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    slips = subject.slips("names")
    exchanged: set[int] = set()
    for number, written in enumerate(subject.tones):
        if (written.bar.number, written.sound.address.lower) in slips or number in exchanged:
            continue
        if _exchanged(subject, number):
            exchanged.add(number + 1)
            yield _tell_exchanged(subject, written, subject.tones[number + 1])
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
            f"the names row says {said.spoken}, and {note_text(written.tone)} is {say_pitch(actual, sounding)}",
            written.tone.span,
            written.sound.address,
            labels=written.label("names"),
            help=_help(subject, written, said),
        )


def _exchanged(subject: Subject, number: int) -> bool:
    """Whether a note and the next, each the only one of its sound, have each other's names."""
    pair = subject.tones[number : number + 2]
    if len(pair) < 2 or any(len(w.sound.tones) > 1 or w.tone.bends or w.tone.name is None for w in pair):
        return False
    if pair[0].sound.address.lower != pair[1].sound.address.lower:
        return False
    said = [PitchClass.parse(w.tone.name or "") for w in pair]
    heard = [{pitch % 12 for pitch in top_pitch(w.tone)} for w in pair]
    if None in said or not all(heard) or heard[0] == heard[1]:
        return False
    first, second = (each.semitone if each else -1 for each in said)
    return first in heard[1] and second in heard[0] and first not in heard[0]


def _tell_exchanged(subject: Subject, one: Written, two: Written) -> Finding:
    names = [subject.name_at(w.sound.address, w.index, top_pitch(w.tone)[-1], w.chord) for w in (one, two)]
    texts = [w.tone.span.text for w in (one, two)]
    fix = None
    if texts == [note_text(w.tone) for w in (one, two)] and texts[0] != texts[1]:
        edits = (Edit(one.tone.span, texts[1]), Edit(two.tone.span, texts[0]))
        fix = Fix(f"{texts[1]} {texts[0]}: exchanged", edits)
    return subject.report(
        RULE,
        f"the names row says {one.tone.name} {two.tone.name}, and {texts[0]} {texts[1]} are {names[0]} and"
        f" {names[1]}: the other way round",
        two.tone.span,
        two.sound.address,
        labels=(Label(one.tone.span, "exchanged with this"), *two.label("names")),
        help="Exchange the two notes, or the two names",
        fix=fix,
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
