"""The one-fret repair: what a note that nothing explains was most likely meant to be.

Tried are one and two frets up and down, the same fret on the strings beside, and an octave; a candidate
is kept only if it becomes a chord tone or is explained by the chord or the key, leaves its neighbours
explained, and brings the line no wider.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lickwright.analysis.classifier import role_at_pitch
from lickwright.analysis.line import LineNote
from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.subject import Subject
from lickwright.checks.wording import count_word, degree_name, degree_of

HELPS = {Role.CHORD_TONE: 0, Role.TENSION: 1, Role.SCALE_TONE: 1, Role.PASSING: 1, Role.NEIGHBOUR: 1}
"""Roles a repair may lead to, the better ones first."""


@dataclass(frozen=True, slots=True)
class Repair:
    """A note in the place of another.

    Attributes:
        words: ``one fret higher is the third``.
        text: The note as an author writes it, ``4:4``; empty where a bend is to go elsewhere.
    """

    words: str
    text: str


def suggest_repair(subject: Subject, role: RoleOf) -> Repair | None:
    """Return the best repair, or None when none helps."""
    note, before, after = _find(subject, role)
    if note is None:
        return None
    best: tuple[tuple[int, int], Repair] | None = None
    for rank, (pitch, words, text) in enumerate(_candidates(subject, role)):
        if _width(pitch, before, after) > _width(role.pitch, before, after) + 1:
            continue
        tried = role_at_pitch(subject.analysis, note, pitch)
        if tried not in HELPS:
            continue
        order = (HELPS[tried], rank)
        if best is None or order < best[0]:
            degree = degree_name(degree_of(pitch, role.chord, subject.piece.music.key))
            best = (order, Repair(f"{words} is the {degree}", text))
    return best[1] if best else None


def _candidates(subject: Subject, role: RoleOf) -> Iterator[tuple[int, str, str]]:
    tone = subject.by_address[role.address].tones[role.tone]
    guitar = subject.piece.music.guitar
    bent = len(tone.path) > 1
    fret = tone.fret or 0
    for frets in (1, -1, 2, -2):
        if bent or guitar.has_fret(fret + frets):
            how = "higher" if frets > 0 else "lower"
            unit = "half step" if bent else "fret"
            plural = "s" if abs(frets) > 1 else ""
            said = f"{count_word(abs(frets))} {unit}{plural} {how}"
            yield (
                role.pitch + frets,
                f"bent {said}" if bent else said,
                "" if bent else f"{tone.string}:{fret + frets}",
            )
    if bent or tone.fret is None:
        return
    for string in (tone.string - 1, tone.string + 1):
        if guitar.has_string(string):
            words = f"the same fret on string {string}"
            yield guitar.midi(string, tone.fret), words, f"{string}:{tone.fret}"
    for octave in (12, -12):
        if guitar.has_fret(tone.fret + octave):
            words = f"twelve frets {'higher' if octave > 0 else 'lower'}"
            yield role.pitch + octave, words, f"{tone.string}:{tone.fret + octave}"


def _find(subject: Subject, role: RoleOf) -> tuple[LineNote | None, LineNote | None, LineNote | None]:
    key = (role.address, role.tone, role.turn)
    for line in subject.analysis.lines.melodic:
        for index, note in enumerate(line):
            if note.key == key:
                before = line[index - 1] if index else None
                after = line[index + 1] if index + 1 < len(line) else None
                return note, before, after
    return None, None, None


def _width(pitch: int, before: LineNote | None, after: LineNote | None) -> int:
    return sum(abs(pitch - near.pitch) for near in (before, after) if near is not None)
