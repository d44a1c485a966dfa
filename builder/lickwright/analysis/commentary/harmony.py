"""Remarks on scales of five notes, and on what stands over no chord."""

from __future__ import annotations

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.walk import flows
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

MAJOR_PENTATONIC = frozenset({0, 2, 4, 7, 9})
MINOR_PENTATONIC = frozenset({0, 3, 5, 7, 10})
BLUES_SCALE = frozenset({0, 3, 5, 6, 7, 10})
PLAIN = (Role.CHORD_TONE, Role.TENSION, Role.SCALE_TONE, Role.WEAK, Role.PASSING)
DIFFERENT = 3
"""Notes of a blues scale."""
RARE = 5
"""A sixth or ninth in so many notes, at the least, makes an arpeggio a pentatonic."""
SHORTEST_SCALE = 4
"""Notes from which a pentatonic is called one."""


def say_no_chord(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Over N.C. nothing is judged."""
    last = first
    while last < len(items) and items[last].role is Role.NO_CHORD:
        last += 1
    return (last - first, "no chord to fit") if last > first else None


def _over_one_chord(items: tuple[Item, ...], first: int, roles: tuple[Role, ...]) -> int:
    """The index after the single notes of these roles over one chord."""
    last = first
    while _goes_on(items, first, last) and items[last].role in roles and items[last].over(items[first]):
        if items[last].note.curl or items[last].bend:
            break
        last += 1
    return last


def _goes_on(items: tuple[Item, ...], first: int, index: int) -> bool:
    return items[first].single if index == first else flows(items, index)


def say_pentatonic(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """The chord's own pentatonic: all five notes of it, or four of which two are no chord tones.

    With one such note it is an arpeggio still.
    """
    chord = items[first].top.chord
    if not isinstance(chord, Chord):
        return None
    minor = 3 in chord.quality.tones and not chord.has_major_third
    if not minor and not chord.has_major_third:
        return None
    scale = MINOR_PENTATONIC if minor else MAJOR_PENTATONIC
    last = _over_one_chord(items, first, PLAIN)
    while last > first and not {i.top.interval for i in items[first:last]} <= scale:
        last -= 1
    degrees = {item.top.interval for item in items[first:last]}
    colours = [item.top.interval for item in items[first:last] if item.role is not Role.CHORD_TONE]
    if len(colours) * RARE < last - first or not colours or len(degrees) < SHORTEST_SCALE:
        return None
    if len(degrees) < len(scale) and len({*colours}) < 2:
        return None
    return last - first, f"{chord.root.display} {'minor' if minor else 'major'} pentatonic"


def say_blues_scale(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Four notes or more of the key's minor pentatonic, two blue notes of a chord with a major third in it.

    With the flat fifth it is the blues scale.
    """
    last, blue = first, set()
    key = items[first].key
    while _goes_on(items, first, last) and not items[last].note.curl:
        above = (items[last].pitch - key.tonic.semitone) % 12
        if above not in BLUES_SCALE or items[last].role is Role.UNEXPLAINED:
            break
        if items[last].role is Role.BLUE or items[last].top.chromatic:
            blue.add(items[last].note.start)
        last += 1
    if last - first < SHORTEST_SCALE or len(blue) < 2:
        return None
    pitches = {(item.pitch - key.tonic.semitone) % 12 for item in items[first:last]}
    if len(pitches) < DIFFERENT:
        return None
    return last - first, f"{key.tonic.display} {'blues scale' if 6 in pitches else 'minor pentatonic'}"
