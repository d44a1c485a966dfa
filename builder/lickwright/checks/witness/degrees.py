"""A degree of the second witness that is not the note's place over its chord.

The ``degrees`` row counts from the root of the chord in force, over N.C. from the key's tonic. The octave
does not matter: 9 is 2, 13 is 6; ``7`` is the major seventh. Two notes side by side that have each other's
degrees are told once.

Why it matters: when fret and degree disagree, one of three has slipped: the fret, the degree, or the chord.

What to do: find out which.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject
from lickwright.checks.witness_exchange import find_exchanged, tell_exchanged
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import degree_of, note_name, note_text, say_pitch
from lickwright.theory.chord import Chord
from lickwright.theory.interval import parse_degree


def run(subject: Subject) -> Iterator[Finding]:
    """Compare every degree that is given."""
    if subject.piece.kind == "chorus":  # degrees speak of the lick's own chords
        return
    key = subject.piece.music.key
    slips = subject.slips("degrees")
    pairs = find_exchanged(subject, "degrees")
    for one, two in pairs:
        yield tell_exchanged(subject, RULE, "degrees", one, two)
    exchanged = {id(written) for pair in pairs for written in pair}
    for written in subject.tones:
        if written.voice in slips or id(written) in exchanged:
            continue
        said = None if written.tone.degree is None else parse_degree(written.tone.degree)
        sounding = top_pitch(written.tone)
        if said is None or not sounding:
            continue
        chord = written.chord
        root = chord.root.semitone if isinstance(chord, Chord) else key.tonic.semitone
        if said.semitones % 12 in {(pitch - root) % 12 for pitch in sounding}:
            continue
        pitch = sounding[0]
        degree = " to ".join(degree_of(each, chord, key) for each in sounding)
        over = chord.display if isinstance(chord, Chord) else key.display
        yield subject.report(
            RULE,
            f"the degrees row says {written.tone.degree}, and {note_text(written.tone)} is"
            f" {say_pitch(note_name(pitch, key, chord), sounding)}, {degree} over {over}",
            written.tone.span,
            written.sound.address,
            labels=written.label("degrees"),
            help="Look which has slipped: the fret, the degree, or the chord",
        )


RULE = Rule(
    id="witness/degrees",
    title="A degree that is not the note's",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 2, Rows: the second witness"),
    good=(
        Example("A7 | 5:0 - 5:4 - 4:2 - 4:4 -\n  degrees | 1 3 5 13"),
        Example("N.C. | 5:0 - 5:4 - 4:2 - 3:0 -\n  degrees | 1 3 5 b7"),
    ),
    bad=(
        Example("A7 | 5:0 - 5:3 h 5:4 4:2 - 3:2 -\n  degrees | 1 3 3 5 1", marks=("5:3",)),
        Example("A7 | 5:0 - 4:2 - 5:4 - 3:2 -\n  degrees | 1 3 5 1", marks=("5:4",)),
    ),
    run=run,
    one_note=True,
)
