"""The note-role classifier: what explains each note of a piece over its chords.

The figures are tried in the order of the tables, the first that fits counts. Two passes: the second
goes over what is left with the roles of the first, since the notes of a run lean on each other.
A note played several times (repeats) has the best of its roles: the first that explains it.

References: the study's algorithm of roles, calibrated on a printed collection of fiddle tunes;
``tests/bench/bench_classifier.py`` measures its false alarms and what it finds.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from lickwright.analysis.figures.blue import exempt, find_blue
from lickwright.analysis.figures.displaced import find_anticipation, find_suspension
from lickwright.analysis.figures.drone import find_drone
from lickwright.analysis.figures.harmonic import (
    find_chord_tone,
    find_scale_tone,
    find_tension,
    find_weak,
)
from lickwright.analysis.figures.leaping import find_escape
from lickwright.analysis.figures.sequence import find_pattern
from lickwright.analysis.figures.stepwise import find_chain, find_neighbour, find_passing
from lickwright.analysis.figures.targeting import find_approach, find_enclosure, find_resolved
from lickwright.analysis.line import LineNote, Lines, draw_lines
from lickwright.analysis.moment import Moment, Setting
from lickwright.analysis.role import Role, RoleOf
from lickwright.model.music import Piece
from lickwright.theory.chord import Chord

Figure = Callable[[Moment], Role | None]

FIRST_PASS: tuple[Figure, ...] = (
    find_chord_tone,
    find_anticipation,
    find_suspension,
    find_tension,
    find_scale_tone,
    find_passing,
    find_neighbour,
    find_approach,
    find_enclosure,
    find_resolved,
    find_blue,
    find_escape,
    find_drone,
    find_weak,
)
SECOND_PASS: tuple[Figure, ...] = (find_chain, find_pattern)
INNER: tuple[Figure, ...] = (
    find_chord_tone,
    find_anticipation,
    find_tension,
    find_scale_tone,
    find_blue,
    find_weak,
)
LED: frozenset[Role] = frozenset(
    {
        Role.ANTICIPATION,
        Role.SUSPENSION,
        Role.RETARDATION,
        Role.TENSION,
        Role.ENCLOSURE,
        Role.DRONE,
        Role.PATTERN,
    }
)
"""Roles that place a chromatic note by more than its half steps."""
DEGREES = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")
"""Of the key, where there is no chord."""
WINDOW = 9
"""Notes on either side that a role can depend on."""


@dataclass(frozen=True, slots=True)
class Analysis:
    """The lines of a piece with the role of every note in them.

    Attributes:
        lines: As played. ``roles``: for each melodic line, a role a note.
        inner: Roles of ``lines.inner``.
    """

    lines: Lines
    setting: Setting
    roles: tuple[tuple[Role, ...], ...]
    inner: tuple[Role, ...]


def classify(piece: Piece) -> tuple[RoleOf, ...]:
    """Find the role of every note of a piece.

    Args:
        piece: Resolved; its style decides whether blue notes are an excuse.

    Returns:
        One entry a pitch, by address, tone and turn. Dead and grace notes have none.
    """
    return list_roles(analyse(piece))


def analyse(piece: Piece) -> Analysis:
    """Lay out the lines of a piece and find the roles in them."""
    lines = draw_lines(piece.music)
    setting = _setting(piece, lines)
    roles = tuple(tuple(_roles(setting, line)) for line in lines.melodic)
    inner = tuple(_inner_role(setting, note) for note in lines.inner)
    return Analysis(lines, setting, roles, inner)


def list_roles(analysis: Analysis) -> tuple[RoleOf, ...]:
    """Return one entry a written pitch, in the order of the music."""
    best: dict[tuple[object, int, int], RoleOf] = {}
    for line, roles in zip(analysis.lines.melodic, analysis.roles, strict=True):
        moment = Moment(analysis.setting, line, list(roles))
        for index, (note, role) in enumerate(zip(line, roles, strict=True)):
            known = best.get(note.key)
            if known is not None and known.role.explained and not known.disconnected:
                continue
            moment.move(index)
            entry = _entry(analysis, moment, role)
            if known is None or (role.explained and not entry.disconnected) or not known.role.explained:
                best[note.key] = entry
    for note, role in zip(analysis.lines.inner, analysis.inner, strict=True):
        moment = Moment(analysis.setting, (note,), [role])
        moment.move(0)
        best.setdefault(note.key, _entry(analysis, moment, role))
    return tuple(sorted(best.values(), key=lambda r: (r.address.lower, r.address, r.tone, r.turn)))


def role_at_pitch(analysis: Analysis, note: LineNote, pitch: int) -> Role | None:
    """The role a note would have at another pitch, or None where that leaves a neighbour unexplained.

    Args:
        analysis: Of the piece.
        note: One of its melodic notes (an inner note gives None).
        pitch: MIDI number to try.
    """
    for line, roles in zip(analysis.lines.melodic, analysis.roles, strict=True):
        index = next((i for i, n in enumerate(line) if n is note), None)
        if index is None:
            continue
        first, last = max(0, index - WINDOW), index + WINDOW + 1
        part = list(line[first:last])
        part[index - first] = replace(note, pitch=pitch, bent=False, curl=False)
        tried = _roles(analysis.setting, tuple(part))
        close = range(max(0, index - first - 2), min(len(part), index - first + 3))
        worse = any(
            not tried[i].explained and roles[first + i].explained for i in close if i != index - first
        )
        return None if worse else tried[index - first]
    return None


def _setting(piece: Piece, lines: Lines) -> Setting:
    key = piece.music.key
    tonic = key.tonic.semitone
    return Setting(
        tonic,
        tuple(pitch_class in key.semitones for pitch_class in range(12)),
        ((tonic + 9) % 12, (tonic + 11) % 12) if key.working_semitones != key.semitones else None,
        piece.style != "plain",
        lines.beat,
        lines.changes,
    )


def _roles(setting: Setting, line: tuple[LineNote, ...]) -> list[Role]:
    roles = [Role.UNEXPLAINED] * len(line)
    moment = Moment(setting, line, roles)
    left: list[int] = []
    for index, note in enumerate(line):
        change = setting.changes[note.chord]
        if not change.harmony:
            roles[index] = Role.NO_CHORD
            continue
        if change.relation[note.pitch % 12] == "t":
            roles[index] = Role.CHORD_TONE
            continue
        moment.move(index)
        role = _first(FIRST_PASS, moment)
        if role is None:
            left.append(index)
        else:
            roles[index] = role
    for index in reversed(left):
        moment.move(index)
        roles[index] = _first(SECOND_PASS, moment) or Role.UNEXPLAINED
    return roles


def _inner_role(setting: Setting, note: LineNote) -> Role:
    if not setting.changes[note.chord].harmony:
        return Role.NO_CHORD
    moment = Moment(setting, (note,), [Role.UNEXPLAINED])
    moment.move(0)
    return _first(INNER, moment) or Role.UNEXPLAINED


def _first(figures: tuple[Figure, ...], moment: Moment) -> Role | None:
    for figure in figures:
        role = figure(moment)
        if role is not None:
            return role
    return None


def _entry(analysis: Analysis, at: Moment, role: Role) -> RoleOf:
    note = at.note
    symbol = at.over.symbol
    if isinstance(symbol, Chord):
        degree = symbol.degree_of(note.pitch)
    else:
        degree = DEGREES[(note.pitch - analysis.setting.tonic) % 12]
    chromatic = at.over.harmony and not at.in_key and at.relation != "t"
    return RoleOf(
        note.sound.address,
        note.tone,
        note.turn,
        note.pitch,
        role,
        degree,
        note.weight,
        symbol,
        analysis.lines.grid.quarters(note.end - note.start),
        chromatic,
        chromatic and role not in LED and _disconnected(at),
    )


def _disconnected(at: Moment) -> bool:
    """Tier 1: neither out by a half step nor in by one and out by a step; blue notes exempt."""
    note = at.note
    if note.curl or note.bent or note.linked or exempt(at):
        return False
    away, near = abs(at.rise_out), abs(at.rise_in)
    return not (away == 1 or (near == 1 and 1 <= away <= 2))
