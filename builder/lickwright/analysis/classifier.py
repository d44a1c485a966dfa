"""The note-role classifier: what explains each note of a piece over its chords.

The figures are tried in the order of the tables, the first that fits counts. Two passes: the second
goes over what is left with the roles of the first, since the notes of a run lean on each other. What
is still left may be explained by the other note of a double stop that moves in parallel.

References: roles after common harmony and jazz teaching, calibrated on a printed collection of fiddle
tunes; ``tests/bench/bench_calibration.py`` measures false alarms and what is found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from lickwright.analysis.entries import Analysis, list_roles
from lickwright.analysis.figures.altered import find_altered
from lickwright.analysis.figures.blue import find_blue, find_pentatonic
from lickwright.analysis.figures.displaced import find_anticipation, find_suspension
from lickwright.analysis.figures.drone import find_drone, find_over_drone
from lickwright.analysis.figures.harmonic import (
    find_chord_tone,
    find_scale_tone,
    find_tension,
    find_weak,
)
from lickwright.analysis.figures.leaping import find_appoggiatura, find_cambiata, find_escape
from lickwright.analysis.figures.sequence import find_pattern
from lickwright.analysis.figures.stepwise import find_chain, find_neighbour, find_passing
from lickwright.analysis.figures.targeting import find_approach, find_enclosure, find_resolved
from lickwright.analysis.line import LineNote, Lines, draw_lines
from lickwright.analysis.moment import Moment, Setting
from lickwright.analysis.role import Role, RoleOf
from lickwright.model.music import Piece

__all__ = ["Analysis", "analyse", "classify", "list_roles", "role_at_pitch"]

Figure = Callable[[Moment], Role | None]

FIRST_PASS: tuple[Figure, ...] = (
    find_chord_tone,
    find_anticipation,
    find_suspension,
    find_altered,
    find_tension,
    find_scale_tone,
    find_passing,
    find_neighbour,
    find_appoggiatura,
    find_approach,
    find_enclosure,
    find_resolved,
    find_blue,
    find_pentatonic,
    find_escape,
    find_cambiata,
    find_drone,
    find_weak,
)
SECOND_PASS: tuple[Figure, ...] = (find_chain, find_over_drone, find_pattern)
INNER: tuple[Figure, ...] = (
    find_chord_tone,
    find_anticipation,
    find_tension,
    find_scale_tone,
    find_blue,
    find_pentatonic,
    find_weak,
)
BLUES = {"plain": 0, "blues": 2}
"""How far a style excuses blue notes; 1 in any other."""
WINDOW = 9
"""Notes on either side that a role can depend on."""


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
    found = [_roles(setting, lines.onward(number)) for number in range(len(lines.melodic))]
    if len(found) > 1:
        _move_in_parallel(lines, found)
    roles = tuple(tuple(each[: len(line)]) for each, line in zip(found, lines.melodic, strict=True))
    inner = tuple(_inner_role(setting, note) for note in lines.inner)
    return Analysis(lines, setting, roles, inner)


def role_at_pitch(analysis: Analysis, note: LineNote, pitch: int) -> Role | None:
    """The role a note would have at another pitch, or None where that leaves a neighbour unexplained.

    Args:
        analysis: Of the piece.
        note: One of its melodic notes (an inner note gives None).
        pitch: MIDI number to try.
    """
    for number, roles in enumerate(analysis.roles):
        line = analysis.lines.onward(number)
        index = next((i for i, n in enumerate(line[: len(roles)]) if n is note), None)
        if index is None:
            continue
        first, last = max(0, index - WINDOW), index + WINDOW + 1
        part = list(line[first:last])
        part[index - first] = replace(note, pitch=pitch, bent=False, curl=False)
        tried = _roles(analysis.setting, tuple(part))
        close = range(max(0, index - 2), min(len(roles), index + 3))
        worse = any(not tried[i - first].explained and roles[i].explained for i in close if i != index)
        return None if worse else tried[index - first]
    return None


def _setting(piece: Piece, lines: Lines) -> Setting:
    key = piece.music.key
    tonic = key.tonic.semitone
    return Setting(
        tonic,
        tuple(pitch_class in key.semitones for pitch_class in range(12)),
        ((tonic + 9) % 12, (tonic + 11) % 12) if key.working_semitones != key.semitones else None,
        BLUES.get(piece.style, 1),
        lines.beat,
        lines.changes,
        key,
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


def _move_in_parallel(lines: Lines, found: list[list[Role]]) -> None:
    """Explain what is left by the explained note struck with it, which takes the same step.

    A note of the key that rubs, and one that comes again in the line, goes with a step that is a half
    step larger or smaller too.
    """
    for number, roles in enumerate(found):
        line = lines.onward(number)
        for index in [i for i, role in enumerate(roles) if role in (Role.UNEXPLAINED, Role.WEAK)]:
            note = line[index]
            rubs = lines.changes[note.chord].relation[note.pitch % 12] == "a"
            if roles[index] is Role.WEAK and not rubs:
                continue
            near = roles[index] is Role.WEAK or _comes_again(line, roles, note)
            for other, partners in enumerate(found):
                if other != number and _is_parallel(line, index, lines.onward(other), partners, near=near):
                    roles[index] = Role.PARALLEL


def _comes_again(line: tuple[LineNote, ...], roles: list[Role], note: LineNote) -> bool:
    return any(
        other.pitch == note.pitch and role.explained and other.key != note.key
        for other, role in zip(line, roles, strict=False)
    )


def _is_parallel(
    line: tuple[LineNote, ...], index: int, other: tuple[LineNote, ...], roles: list[Role], *, near: bool
) -> bool:
    """Whether a line has an explained note at the same time that steps as this one does.

    ``near``: a half step more or less makes no difference.
    """
    note = line[index]
    at = next((i for i, n in enumerate(other) if n.sound is note.sound and n.start == note.start), None)
    if at is None or other[at] is note or not roles[at].explained or roles[at] is Role.PARALLEL:
        return False
    for way in (-1, 1):
        if not (0 <= index + way < len(line) and 0 <= at + way < len(other)):
            continue
        one, two = line[index + way], other[at + way]
        step = one.pitch - note.pitch
        together = one.sound is two.sound and one is not two
        beside = two.pitch - other[at].pitch
        if not (together and 1 <= abs(step) <= 2):
            continue
        if beside == step or (near and 1 <= abs(beside) <= 2 and (beside > 0) == (step > 0)):
            return True
    return False


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
