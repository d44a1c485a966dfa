"""Remarks on notes that the chord or the key explains: arpeggios, pentatonics, single notes."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.shape import run_of_singles
from lickwright.analysis.commentary.words import list_words
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

MAJOR_PENTATONIC = frozenset({0, 2, 4, 7, 9})
BLUES_SCALE = frozenset({0, 3, 5, 6, 7, 10})
PLAIN = (Role.CHORD_TONE, Role.TENSION, Role.SCALE_TONE, Role.WEAK, Role.PASSING)
MOST = 4
"""Notes that are named one by one."""
DIFFERENT = 3
"""Tones of a chord that make an arpeggio, notes of a blues scale."""
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
    end = run_of_singles(items, first)
    last = first
    while last < end and items[last].role in roles and items[last].note.chord == items[first].note.chord:
        if items[last].note.curl or items[last].bend:
            break
        last += 1
    return last


def say_pentatonic(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Four notes or more of the chord's major pentatonic, the sixth or ninth among them."""
    chord = items[first].top.chord
    if not isinstance(chord, Chord) or not chord.has_major_third:
        return None
    last = _over_one_chord(items, first, PLAIN)
    while last > first and not {i.top.interval for i in items[first:last]} <= MAJOR_PENTATONIC:
        last -= 1
    degrees = {item.top.interval for item in items[first:last]}
    colours = sum(item.top.interval in (2, 9) for item in items[first:last])
    if colours * RARE < last - first:
        return None
    if last - first < SHORTEST_SCALE or not degrees & {2, 9} or len(degrees) < SHORTEST_SCALE:
        return None
    return last - first, f"{chord.root.display} major pentatonic"


def say_blues_scale(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Four notes or more of the key's minor pentatonic, two blue notes of a chord with a major third in it.

    With the flat fifth it is the blues scale.
    """
    end = run_of_singles(items, first)
    last, blue = first, set()
    key = items[first].key
    while last < end and not items[last].note.curl:
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


def say_arpeggio(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Three different chord tones or more in a row."""
    chord = items[first].top.chord
    last = _over_one_chord(items, first, (Role.CHORD_TONE,))
    row = items[first:last]
    if not isinstance(chord, Chord) or len({item.top.interval for item in row}) < DIFFERENT:
        return None
    moves = [b.pitch - a.pitch for a, b in pairwise(row)]
    way = " up" if all(m > 0 for m in moves) else " down" if all(m < 0 for m in moves) else ""
    return len(row), f"arpeggio of {chord.display}{way}"


def say_notes(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Up to three notes, named: ``root and fifth``; a note that is repeated is so called."""
    item = items[first]
    last = max(first + 1, min(_over_one_chord(items, first, PLAIN[:4]), first + MOST))
    while last - first > 1 and _begins_figure(items, last):
        last -= 1
    row = items[first:last]
    if len({i.pitch for i in row}) == 1 and len(row) > 1:
        return len(row), f"the {item.degree}, repeated"
    if len(row) == 1:
        return 1, _one(item)
    names = [i.degree for i in row]
    return len(row), list_words([name for n, name in enumerate(names) if n == 0 or name != names[n - 1]])


def _begins_figure(items: tuple[Item, ...], index: int) -> bool:
    """Whether the note before an index belongs with what follows: the start of a neighbour figure."""
    return index < len(items) and items[index].role is Role.NEIGHBOUR and items[index].joined


def _one(item: Item) -> str:
    name = f"the {item.degree}"
    match item.role:
        case Role.TENSION:
            return f"{name}, a colour"
        case Role.SCALE_TONE | Role.WEAK:
            return f"{name} of the scale"
        case _:
            return name
