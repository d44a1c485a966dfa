"""Remarks on longer shapes: drones, cells that are moved."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.walk import SHORTEST, run_of_singles
from lickwright.analysis.commentary.words import name_step
from lickwright.analysis.role import Role

STRIKES = 3
"""Of one pitch, that make a drone."""
SHOWS = 5
"""Notes in which a drone shows itself: three strikes, a note between each."""
WIDEST = 4
"""Half steps from note to note of a line against an open string; by step against a stopped one."""


def say_drone(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A pitch struck three times or more, a line on other strings between its strokes.

    One note stands between two strokes, of an open string one or two. The line keeps to one side of it
    and is no arpeggio with it.
    """
    ahead = [item.pitch for item in items[first : first + SHOWS]]
    if len(ahead) < SHOWS or not any(ahead[i] in ahead[i + 2 : i + 4] for i in (0, 1)):
        return None
    end = run_of_singles(items, first)
    for start in (first, first + 1):
        if start >= end:
            break
        last = _strike_on(items, start, end)
        between = [items[i].pitch for i in range(first, last) if items[i].pitch != items[start].pitch]
        row = items[first : last + 1]
        strikes = sum(item.pitch == items[start].pitch for item in row)
        if strikes < STRIKES or all(item.role is Role.CHORD_TONE for item in row):
            continue
        if not _on_other_strings(items[start], row):
            continue
        if Role.UNEXPLAINED in {item.role for item in row} or not _is_drone(items[start], between):
            continue
        tail = ""
        while last + 1 < end and _steps(items, last + 1, between[-1]):
            last += 1
            between.append(items[last].pitch)
        if last + 1 == end and (reached := _under(items, end, items[start].pitch, between[-1])):
            last += 1
            tail = f" to the {reached}"
        return last - first + 1, f"drone on {_string(items[start])}{_against(between)}{tail}"
    return None


def _strike_on(items: tuple[Item, ...], start: int, end: int) -> int:
    """The index of the last strike, with one or two other notes before each."""
    last, pitch = start, items[start].pitch
    while True:
        for gap in (2, 3) if items[start].note.open else (2,):
            between = items[last + 1 : last + gap]
            if (
                last + gap < end
                and items[last + gap].pitch == pitch
                and all(i.pitch != pitch for i in between)
            ):
                last += gap
                break
        else:
            return last


def _is_drone(item: Item, between: list[int]) -> bool:
    """Whether a line of two pitches or more keeps to one side of it, and leaves it by more than a step."""
    sides = {pitch > item.pitch for pitch in between}
    apart = any(abs(pitch - item.pitch) > 2 for pitch in between)
    widest = WIDEST if item.note.open else 2
    near = all(abs(b - a) <= widest for a, b in pairwise(between))
    return len({*between}) > 1 and len(sides) == 1 and apart and near


def _steps(items: tuple[Item, ...], index: int, before: int) -> bool:
    """Whether the line goes on by step across the last strike, or repeats its note."""
    item = items[index]
    return item.joined and (item.pitch == before or (item.at_rest and abs(item.pitch - before) <= 2))


def _under(items: tuple[Item, ...], index: int, drone: int, before: int) -> str:
    """The degree that a line steps to when it meets the drone in a double stop."""
    item = items[index] if index < len(items) else None
    if item is None or not item.joined or drone not in {role.pitch for role in item.roles}:
        return ""
    to = [role for role in item.roles if 1 <= abs(role.pitch - before) <= 2]
    return item.name(to[0]) if len(item.roles) == 2 and to else ""


def _on_other_strings(drone: Item, row: tuple[Item, ...]) -> bool:
    strings = {item.note.sound.tones[item.note.tone].string for item in row if item.pitch != drone.pitch}
    return drone.note.sound.tones[drone.note.tone].string not in strings


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
