"""The roles of a piece as a list: one entry a written pitch, whatever it is played and however often.

A note that repeats take in again may have another role each time, since its neighbours differ at the
seams. The best of them counts: a lick is written to go round, and what leads back to its beginning the
first time need not lead on the second. But a note that is held, a beat or more on a strong beat, is
heard by itself every time; of its roles the worst counts.
"""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.analysis.line import Lines
from lickwright.analysis.moment import Moment, Setting
from lickwright.analysis.role import Role, RoleOf
from lickwright.analysis.tiers import DISCONNECTED, find_tier
from lickwright.theory.chord import Chord
from lickwright.theory.spelling import spell

STRONG = 3
"""Metric weight."""
_WORST_FIRST = {0: 3, 1: 2, 2: 1, None: 0}
_Key = tuple[object, int, int]
_Place = tuple[int, int]
"""Line and index in it."""


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


def list_roles(analysis: Analysis) -> tuple[RoleOf, ...]:
    """Return one entry a written pitch, in the order of the music."""
    lines, setting = analysis.lines, analysis.setting
    places: dict[_Key, list[_Place]] = {}
    for number, line in enumerate(lines.melodic):
        for index, note in enumerate(line):
            places.setdefault(note.key, []).append((number, index))
    moments = [
        Moment(setting, lines.onward(number), list(roles)) for number, roles in enumerate(analysis.roles)
    ]
    entries: dict[_Key, RoleOf] = {}
    for key, found in places.items():
        if len(found) == 1:
            number, index = found[0]
            role = analysis.roles[number][index]
            entries[key] = _entry(analysis, moments[number], index, role, (role,))
        else:
            entries[key] = _choose(analysis, moments, found)
    for note, role in zip(lines.inner, analysis.inner, strict=True):
        if note.key not in entries:
            entries[note.key] = _entry(analysis, Moment(setting, (note,), [role]), 0, role, (role,))
    return tuple(sorted(entries.values(), key=lambda r: (r.address.lower, r.address, r.tone, r.turn)))


def _choose(analysis: Analysis, moments: list[Moment], found: list[_Place]) -> RoleOf:
    """The entry of a note that is played several times, or stands in two lines."""
    roles = [analysis.roles[number][index] for number, index in found]
    number, index = found[0]
    if roles.count(Role.CHORD_TONE) == len(roles):
        times = {analysis.lines.melodic[n][i].start for n, i in found}
        return _entry(analysis, moments[number], index, roles[0], tuple(roles[: len(times)]))
    each: dict[int, tuple[int, _Place, Role]] = {}
    for place, role in zip(found, roles, strict=True):
        at = moments[place[0]]
        at.move(place[1])
        rank = _WORST_FIRST[find_tier(at, role)]
        start = at.note.start
        if start not in each or rank < each[start][0]:
            each[start] = (rank, place, role)
    note = analysis.lines.melodic[number][index]
    held = note.weight >= STRONG and note.end - note.start >= analysis.lines.beat
    wanted = (max if held else min)(rank for rank, _, _ in each.values())
    _, (number, index), role = next(one for one in each.values() if one[0] == wanted)
    return _entry(analysis, moments[number], index, role, tuple(role for _, _, role in each.values()))


def _entry(analysis: Analysis, at: Moment, index: int, role: Role, passes: tuple[Role, ...]) -> RoleOf:
    at.move(index)
    note = at.note
    tone = at.relation == "t"
    tier = None if tone else find_tier(at, role)
    root = at.over.root if at.over.harmony else analysis.setting.tonic
    return RoleOf(
        note.sound.address,
        note.tone,
        note.turn,
        note.pitch,
        role,
        _degree(at),
        note.weight,
        at.over.symbol,
        analysis.lines.grid.quarters(note.end - note.start),
        at.over.harmony and not at.in_key and not tone,
        tier == DISCONNECTED,
        tier,
        (note.pitch - root) % 12,
        _resolved(at, role) if at.relation == "c" else None,
        at.after is None,
        passes,
    )


def _degree(at: Moment) -> str:
    """As the staff spells it: by the chord, the key, and for a chromatic note by where it goes."""
    symbol, pitch, key = at.over.symbol, at.pitch, at.setting.key
    if isinstance(symbol, Chord):
        if at.relation == "t":
            return symbol.degree_of(pitch)
        return symbol.degree_of(spell(pitch, key, symbol, *_beside(at)).name)
    return key.degree_of(spell(pitch, key, symbol, *_beside(at)).name)


def _beside(at: Moment) -> tuple[int | None, int | None]:
    """The pitches written before and after, across rests too."""
    line, index = at.line, at.index
    before = line[index - 1].pitch if index else None
    after = line[index + 1].pitch if index + 1 < len(line) else None
    return before, after


def _resolved(at: Moment, role: Role) -> bool:
    """Whether a conditional tension passes, or steps to rest within two notes."""
    if role in (Role.PASSING, Role.NEIGHBOUR, Role.RESOLVED):
        return True
    return any(
        later is not None and 1 <= abs(later.pitch - at.pitch) <= 2 and at.setting.stable(later)
        for later in (at.after, at.second)
    )
