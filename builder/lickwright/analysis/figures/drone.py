"""Drones and pedals: an open string that keeps coming back, or a bass that stays through the chords."""

from __future__ import annotations

from lickwright.analysis.line import LineNote
from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

STRIKES = 3
"""Strikes of one open string in a bar and its neighbours that make a drone."""


def find_drone(at: Moment) -> Role | None:
    """An open string struck three times thereabouts or ringing over a change; a bass under two chords."""
    note = at.note
    if note.open and (_strikes(at, note) >= STRIKES or _rings_over_change(at, note)):
        return Role.DRONE
    if note.lowest and any(n.lowest and n.pitch == at.pitch and n.chord != note.chord for n in at.line):
        return Role.DRONE
    return None


def _strikes(at: Moment, note: LineNote) -> int:
    return sum(near.open and near.pitch == note.pitch and abs(near.bar - note.bar) <= 1 for near in at.line)


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
