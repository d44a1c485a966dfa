"""A note in its line, for the rules of harmony: what comes before and after, what it is to its chord.

Conventions: neighbours are those of the note's voice the first time it is played; across a rest longer
than a beat there are none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.changes import change
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role, RoleOf
from lickwright.model.music import Tone
from lickwright.model.strike import BendKind
from lickwright.theory.chord import ChordSymbol

if TYPE_CHECKING:
    from lickwright.checks.subject import Subject

STANDING = frozenset({Role.SCALE_TONE, Role.TENSION, Role.WEAK, Role.BLUE, Role.UNEXPLAINED})
"""Roles of notes that no figure of the line accounts for."""
STEP = 2
"""Half steps."""


def leaps_away(subject: Subject, role: RoleOf) -> bool:
    """Whether the line goes on from a note by more than a step; False at the end of a phrase.

    False too for a note between the outer ones of a chord, which has no line.
    """
    at = _find(subject, role)
    return at is not None and at.after is not None and abs(at.rise_out) > STEP


def left_alone(subject: Subject, role: RoleOf) -> bool:
    """Whether the line goes on from a note by more than a step, or not at all; through repetitions.

    False for a note between the outer ones of a chord, which has no line.
    """
    at = _find(subject, role)
    return at is not None and not 1 <= abs(at.onward) <= STEP


def lies_below(subject: Subject, role: RoleOf) -> bool:
    """Whether the line comes down to a note: as a neighbour it is the one below."""
    at = _find(subject, role)
    return at is not None and at.come < 0


def resolves(subject: Subject, role: RoleOf) -> bool:
    """Whether one of the two notes that follow is at rest on its chord and a step away."""
    at = _find(subject, role)
    if at is None:
        return False
    near = (note for note in (at.after, at.second) if note is not None)
    return any(1 <= abs(note.pitch - role.pitch) <= STEP and at.setting.stable(note) for note in near)


def _find(subject: Subject, role: RoleOf) -> Moment | None:
    key = (role.address, role.tone, role.turn)
    analysis = subject.analysis
    for line, roles in zip(analysis.lines.melodic, analysis.roles, strict=True):
        for index, note in enumerate(line):
            if note.key == key:
                moment = Moment(analysis.setting, line, list(roles))
                moment.move(index)
                return moment
    return None


def relation(chord: ChordSymbol, pitch: int) -> str:
    """What a pitch is to a chord: ``t`` tone, ``f`` free tension, ``c`` conditional, ``a`` avoid, ``.``."""
    return change(0, chord).relation[pitch % 12]


def unbent(tone: Tone) -> int | None:
    """The MIDI number of the fret that is held under a bend; None for what has no pitch."""
    if not tone.path or tone.fret is None or not tone.bends:
        return int(tone.path[0]) if tone.path else None
    return int(tone.path[-1] - (tone.bends[-1].to - tone.fret))


def is_bent(tone: Tone, pitch: int) -> bool:
    """Whether a bend brought a tone to a pitch."""
    return bool(tone.bends) and pitch != unbent(tone)


def is_let_down(tone: Tone, pitch: int) -> bool:
    """Whether a release brought a tone back to the pitch of its fret."""
    released = any(bend.kind is BendKind.RELEASE for bend in tone.bends)
    return released and pitch == unbent(tone)
