"""Remarks on longer shapes: walks along the scale or by half steps, drones, cells that are moved."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import name_step
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

SHORTEST = 3
"""Notes that make a walk, strikes that make a drone."""


def run_of_singles(items: tuple[Item, ...], first: int) -> int:
    """Return the index after the single notes, joined, that begin at one."""
    last = first
    while last < len(items) and items[last].single and (last == first or items[last].joined):
        last += 1
    return last


def goal(items: tuple[Item, ...], first: int, last: int) -> str:
    """Return the note a figure ends on: ``the third``, over a new chord ``the third of D``."""
    start, end = items[first].top.chord, items[last].top.chord
    of = f" of {end.display}" if isinstance(end, Chord) and not end.same_as(start) else ""
    return f"the {items[last].degree}{of}"


def say_walk(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Three notes or more by step one way: along the scale, or with half steps out of it."""
    end = run_of_singles(items, first)
    last = first
    while last + 1 < end:
        move = items[last + 1].pitch - items[last].pitch
        if not 1 <= abs(move) <= 2 or (last > first and (move > 0) != _rises(items, first)):
            break
        last += 1
    while last - first >= SHORTEST and not items[last].at_rest:
        last -= 1
    if last - first + 1 < SHORTEST or not _apart(items, first, last):
        return None
    way = "up" if _rises(items, first) else "down"
    count = last - first + 1
    to = f" to {goal(items, first, last)}" if items[last].at_rest else ""
    moves = [abs(b.pitch - a.pitch) for a, b in pairwise(items[first : last + 1])]
    chromatic = any(item.top.chromatic for item in items[first:last])
    if all(move == 1 for move in moves):
        return count, f"half steps {way}{to}" if not chromatic else f"chromatic walk {way}{to}"
    if chromatic and any(a == b == 1 for a, b in pairwise(moves)):
        return count, f"walks {way} with half steps{to}"
    if any(item.role is Role.BLUE or item.top.chromatic for item in items[first : last + 1]):
        return count, f"walks {way}{to}"
    return count, f"walks {way} the scale{to}"


def say_chromatic_walk(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A walk whose second note is chromatic."""
    second = items[first + 1] if first + 1 < len(items) else None
    return say_walk(items, first) if second is not None and second.top.chromatic else None


def _rises(items: tuple[Item, ...], first: int) -> bool:
    return items[first + 1].pitch > items[first].pitch


def _apart(items: tuple[Item, ...], first: int, last: int) -> bool:
    """Whether some note of it is no chord tone: else it is part of an arpeggio."""
    return any(item.role is not Role.CHORD_TONE for item in items[first : last + 1])


def say_drone(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A pitch struck three times or more, other notes between, or in the bass again and again."""
    end = run_of_singles(items, first)
    for start in (first, first + 1):
        if start >= end:
            break
        pitch, last = items[start].pitch, start
        while last + 2 < end and items[last + 2].pitch == pitch and items[last + 1].pitch != pitch:
            last += 2
        strikes = (last - start) // 2 + 1
        if strikes < SHORTEST:
            continue
        between = [items[i].pitch for i in range(first, last) if items[i].pitch != pitch]
        if not _is_drone(items[start], between):
            continue
        if last + 1 < end and len(between) >= 2 and items[last + 1].at_rest and _steps(items, last):
            last += 1
            between.append(items[last].pitch)
        return last - first + 1, f"drone on {_string(items[start])}{_against(between)}"
    return None


def _is_drone(item: Item, between: list[int]) -> bool:
    """Whether a line of two pitches or more keeps to one side of it, and leaves it by more than a step."""
    sides = {pitch > item.pitch for pitch in between}
    apart = any(abs(pitch - item.pitch) > 2 for pitch in between)
    return len({*between}) > 1 and len(sides) == 1 and apart


def _steps(items: tuple[Item, ...], last: int) -> bool:
    """Whether the line goes on by step across the last strike."""
    return items[last + 1].joined and 1 <= abs(items[last + 1].pitch - items[last - 1].pitch) <= 2


def _string(item: Item) -> str:
    return f"the open {_ordinal(item)} string" if item.note.open else f"the {item.degree}"


def _ordinal(item: Item) -> str:
    ordinals = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
    return ordinals[item.note.sound.tones[item.note.tone].string - 1]


def _against(between: list[int]) -> str:
    moves = [b - a for a, b in pairwise(between) if a != b]
    if moves and all(1 <= abs(move) <= 2 for move in moves):
        if all(move > 0 for move in moves):
            return ", a line walking up against it"
        if all(move < 0 for move in moves):
            return ", a line walking down against it"
    return ", a line against it"


def say_cell(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """The notes before played again elsewhere, where that is what explains them."""
    for length in range(8, SHORTEST - 1, -1):
        model, copy = items[max(0, first - length) : first], items[first : first + length]
        if len(model) != length or len(copy) != length:
            continue
        if not any(item.role is Role.PATTERN for item in copy):
            continue
        if not all(item.single and (item.joined or item is model[0]) for item in (*model, *copy)):
            continue
        moves = {b.pitch - a.pitch for a, b in zip(model, copy, strict=True)}
        if len(moves) == 1 and (move := next(iter(moves))):
            return length, f"the same cell a {name_step(move)} {'higher' if move > 0 else 'lower'}"
        if moves and max(moves) - min(moves) <= 1 and (min(moves) > 0 or max(moves) < 0):
            return length, f"the same cell {'higher' if min(moves) > 0 else 'lower'} in the scale"
    return None
