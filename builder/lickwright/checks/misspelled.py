"""The names of the names row that sound right and are written otherwise; the rules of spelling sort them.

A wrong note is not among them: that is the second witness's. A chromatic note may also be spelled as
the next chord has it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.checks.rule import Rule
from lickwright.checks.spelling_reasons import Kind, Reason, explain_spelling
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import note_text
from lickwright.findings import Edit, Finding, Fix
from lickwright.theory.pitch import PitchClass

if TYPE_CHECKING:
    from lickwright.checks.subject import Subject, Written


@dataclass(frozen=True, slots=True)
class Misspelled:
    """A note with a name that sounds right, and why another is expected."""

    written: Written
    reason: Reason


def list_misspelled(subject: Subject) -> tuple[Misspelled, ...]:
    """Return what the names rows of a piece spell otherwise; nothing for a chorus, whose licks are asked."""
    if subject.piece.kind == "chorus":
        return ()
    return tuple(_misspelled(subject))


def _misspelled(subject: Subject) -> Iterator[Misspelled]:
    key = subject.piece.music.key
    for written in subject.tones:
        name = written.tone.name
        if name is None:
            continue
        said, sounding = PitchClass.parse(name), top_pitch(written.tone)
        if said is None or said.semitone not in {pitch % 12 for pitch in sounding}:
            continue
        chord = written.chord
        if said in chord.pitch_classes:
            continue
        pitch = next(p for p in sounding if p % 12 == said.semitone)
        bent = len(written.tone.path) > 1
        before, after = (None, None) if bent else _neighbours(subject, written)
        reason = explain_spelling(pitch, name, key, chord, before, after)
        if reason is None or (bent and reason.kind in ("direction", "blue")):
            continue
        if reason.kind != "double" and said in _coming(subject, written):
            continue
        yield Misspelled(written, reason)


def _neighbours(subject: Subject, written: Written) -> tuple[int | None, int | None]:
    """The pitches before and after a tone in its line, the first time it is played."""
    key = (written.sound.address, written.index, 0)
    for line in subject.analysis.lines.melodic:
        for place, note in enumerate(line):
            if note.key == key:
                before = line[place - 1].pitch if place else None
                return before, line[place + 1].pitch if place + 1 < len(line) else None
    return None, None


def _coming(subject: Subject, written: Written) -> tuple[PitchClass, ...]:
    """The notes of the next chord, as it spells them."""
    now, reached = written.chord, False
    for bar in subject.piece.music.bars:
        for chord in bar.chords:
            later = reached or (bar is written.bar and chord.onset > written.sound.onset)
            if later and not chord.symbol.same_as(now):
                return chord.symbol.pitch_classes
        reached = reached or bar is written.bar
    return ()


def report_misspelled(subject: Subject, rule: Rule, kind: Kind) -> Iterator[Finding]:
    """Report what is written otherwise for one kind of reason."""
    for one in subject.misspelled:
        reason, written = one.reason, one.written
        if reason.kind != kind:
            continue
        yield subject.report(
            rule,
            f"the names row says {reason.written.spoken}, and {note_text(written.tone)} is written"
            f" {reason.expected.spoken}: {reason.why}",
            written.tone.span,
            written.sound.address,
            labels=written.label("names"),
            help=f"Write {reason.expected}",
            fix=_respelling(written, reason.expected),
        )


def _respelling(written: Written, expected: PitchClass) -> Fix | None:
    entry = written.entry("names")
    if entry is None or entry.text != written.tone.name:
        return None
    return Fix(f"write {expected}", (Edit(entry, str(expected)),))
