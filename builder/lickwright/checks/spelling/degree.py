"""A degree of a chord tone by another number: ``#4`` for the flat fifth of a half-diminished chord.

It is only noted. ``b3`` for a sharp ninth and ``6`` for a diminished seventh are in use and left alone.
Where the names row names the note too, the two are held against each other: D sharp over A is ``#4``,
E flat ``b5``.

Why it matters: the number says which letter the note has, and so what it is in the chord.

What to do: write the degree as the chord symbol has it, or as the name has it.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.subject import Subject, Written
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_text
from lickwright.theory.chord import Chord
from lickwright.theory.interval import Interval, parse_degree
from lickwright.theory.pitch import PitchClass

IN_USE = {"#2": "b3", "bb7": "6"}
"""Degrees of chords that go by another number, too."""


def run(subject: Subject) -> Iterator[Finding]:
    """Compare the number of every degree that sounds right."""
    if subject.piece.kind == "chorus":  # its licks have been asked
        return
    for written in subject.tones:
        text = written.tone.degree
        said = None if text is None else parse_degree(text)
        chord = written.chord
        if said is None or not isinstance(chord, Chord):
            continue
        sounding = {(pitch - chord.root.semitone) % 12 for pitch in top_pitch(written.tone)}
        if said.semitones % 12 not in sounding:  # another note: the witness's matter
            continue
        expected, why = _expected(written, said, chord)
        if expected:
            yield subject.report(
                RULE,
                f"the degrees row says {text}, and {note_text(written.tone)} is the {expected} {why}",
                written.tone.span,
                written.sound.address,
                labels=written.label("degrees"),
                help=f"Write {expected}",
            )


def _expected(written: Written, said: Interval, chord: Chord) -> tuple[str, str]:
    pitch = (chord.root.semitone + said.semitones) % 12
    if pitch in chord.semitones:
        label = chord.degree_of(pitch)
        if said.label not in (label, IN_USE.get(label)):
            return label, f"of {chord.display}"
        return "", ""
    name = None if written.tone.name is None else PitchClass.parse(written.tone.name)
    if name is None or name.semitone != pitch:
        return "", ""
    label = Interval.between(chord.root, name).label
    if label == said.label or len(label) > 2 or label in ("#3", "b4", "#7", "b1", "#6", "b8"):
        return "", ""
    return label, f"over {chord.display} as {name.spoken}"


RULE = Rule(
    id="spelling/degree",
    title="A degree by another number",
    severity=Severity.NOTE,
    source=Source("common practice", "A degree counts letters from the root: rudiments of harmony"),
    good=(
        Example("key: A minor\n\nBm7b5 | 5:2 - 4:0 - 4:3 - 3:2 -\n  degrees | 1 b3 b5 b7"),
        Example("A7 | 5:0 - 4:1 4:2 3:0 - 3:2 -\n  names | A D# E G A\n  degrees | 1 #4 5 b7 1"),
    ),
    bad=(
        Example("key: A minor\n\nBm7b5 | 5:2 - 4:0 - 4:3 - 3:2 -\n  degrees | 1 b3 #4 b7", marks=("4:3",)),
        Example(
            "A7 | 5:0 - 4:1 4:2 3:0 - 3:2 -\n  names | A D# E G A\n  degrees | 1 b5 5 b7 1", marks=("4:1",)
        ),
    ),
    run=run,
)
