"""Drones and pedals, and the line that runs against one."""

from __future__ import annotations

from lickwright.analysis.figures.displaced import foretells
from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import STRIKES, Moment
from lickwright.analysis.role import Role

NEAR = 8
"""Notes on either side among which a pedal comes back."""


def find_drone(at: Moment) -> Role | None:
    """An open string or a pitch that keeps coming back, or rings over a change; a bass under two chords.

    An open string is a drone with three strikes in its bar and the bars beside it, or with a let-ring
    bracket over the change; a fretted pitch of the key with three strikes among the notes
    around it, other notes between them; a bass is one when it stays while the chord changes.
    """
    note = at.note
    if note.open and (_strikes(at, note) >= STRIKES or _rings_over_change(at, note)):
        return Role.DRONE
    if note.lowest and _stays(at):
        return Role.DRONE
    if not (at.in_key and _returns(at)):
        return None
    return Role.ANTICIPATION if foretells(at) else Role.DRONE


def find_over_drone(at: Moment) -> Role | None:
    """Second pass: passing or neighbour in the line that alternates with a drone.

    By half steps if it is chromatic.
    """
    rise_in, rise_out = at.rises()
    if (rise_in, rise_out) == (at.rise_in, at.rise_out):
        return None
    most = 2 if at.in_key else 1
    if not (1 <= abs(rise_in) <= most and 1 <= abs(rise_out) <= most):
        return None
    if (rise_in > 0) == (rise_out > 0):
        return Role.PASSING
    return Role.NEIGHBOUR if rise_in == -rise_out else None


def _stays(at: Moment) -> bool:
    """Whether the note of the bass beside it is the same, over another chord."""
    return any(
        near is not None and near.lowest and near.pitch == at.pitch and near.chord != at.note.chord
        for near in (at.before, at.after)
    )


def _strikes(at: Moment, note: LineNote) -> int:
    return sum(near.open and near.pitch == note.pitch and abs(near.bar - note.bar) <= 1 for near in at.line)


def _returns(at: Moment) -> bool:
    """Whether the pitch comes back often enough, left and taken again."""
    line, index = at.line, at.index
    count = 0
    for i in range(max(0, index - NEAR), min(len(line), index + NEAR + 1)):
        if line[i].pitch == at.pitch and (i == 0 or line[i - 1].pitch != at.pitch):
            count += 1
    return count >= STRIKES


def _rings_over_change(at: Moment, note: LineNote) -> bool:
    """Whether its let-ring bracket lasts past the next change before the string is used again."""
    bracket = note.sound.ring
    coming = at.setting.following(note)
    if not bracket or coming is None:
        return False
    string = note.sound.tones[note.tone].string
    for later in at.line[at.index + 1 :]:
        if later.sound.ring != bracket:
            return False
        if later.start >= coming.start:
            return True
        if any(tone.string == string for tone in later.sound.tones):
            return False
    return False
