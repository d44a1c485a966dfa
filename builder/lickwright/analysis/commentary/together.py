"""Remarks on notes struck together: double stops one by one or in a row, chords."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import list_words, name_degree
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

_FAMILIES = {
    3: "thirds", 4: "thirds", 5: "fourths", 7: "fifths", 8: "sixths", 9: "sixths", 12: "octaves",
    15: "tenths", 16: "tenths",
}  # fmt: skip
_BOOGIE = (7, 9, 10)


def say_double_stops(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Two double stops or more of one kind in a row: ``sixths walking down by half steps``."""
    family = _family(items[first])
    if family is None:
        return None
    last = first
    while last + 1 < len(items) and items[last + 1].joined and _family(items[last + 1]) == family:
        last += 1
    if last == first:
        return None
    row = items[first : last + 1]
    moves = [b.pitch - a.pitch for a, b in pairwise(row)]
    text = f"{family} {_way(moves)}"
    if row[-1].top.role is Role.CHORD_TONE and any(moves):
        text += f" to the {_degrees(row[-1])}"
    return len(row), text


def say_boogie(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Fifth, sixth and flat seventh in turn over a root that stays: the shuffle figure."""
    bass, last = items[first].roles[-1], first
    while last < len(items) and len(items[last].roles) == 2 and (last == first or items[last].joined):
        if items[last].roles[-1].pitch != bass.pitch or items[last].top.interval not in _BOOGIE:
            break
        last += 1
    names = list(dict.fromkeys(item.degree for item in items[first:last]))
    if bass.interval or last - first < 2 or len(names) < 2:
        return None
    return last - first, f"{list_words(names)} in turn over the root"


def _way(moves: list[int]) -> str:
    if not any(moves):
        return "repeated"
    steps = " by half steps" if all(abs(move) == 1 for move in moves) else ""
    if all(move >= 0 for move in moves):
        return f"walking up{steps}"
    return f"walking down{steps}" if all(move <= 0 for move in moves) else "in parallel"


def say_chord(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """One double stop, ``third and fifth together``, or a chord."""
    item = items[first]
    if item.single:
        return None
    chord = item.top.chord
    names = _degrees(item)
    if len({role.interval for role in item.roles}) > 2 and isinstance(chord, Chord):
        if all(role.role is Role.CHORD_TONE for role in item.roles):
            return 1, f"the chord of {chord.display}"
        return 1, f"over {chord.display} the {names} together"
    return 1, f"{names} together" if len(item.roles) > 1 and " and " in names else f"{names} doubled"


def _degrees(item: Item) -> str:
    """From the lowest up, each once."""
    names: list[str] = []
    for role in reversed(item.roles):
        name = name_degree(role.degree, role.chord)
        if name not in names:
            names.append(name)
    return list_words(names)


def _family(item: Item) -> str | None:
    if len(item.roles) != 2:
        return None
    return _FAMILIES.get(item.roles[0].pitch - item.roles[1].pitch)
