"""Remarks on notes that belong to the chord before or after: suspensions, leans, anticipations."""

from __future__ import annotations

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import list_words, name_of
from lickwright.analysis.role import Role, RoleOf
from lickwright.theory.chord import Chord

DOWNBEAT = 4
"""Metric weight of the bar line, where a lean stands."""
_SUSPENDED = (Role.SUSPENSION, Role.RETARDATION)


def say_suspension(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """``4-3 suspension``: the held-over note and the one it gives way to, in whichever voice."""
    item, after = items[first], _next(items, first)
    if after is None or after.bend:
        return None
    if (tail := say_held(items, first)) is not None:
        return 2, f"the {item.degree} of {item.top.chord.display}, {tail}"
    for role in item.roles:
        if role.role not in _SUSPENDED:
            continue
        down = role.role is Role.SUSPENSION
        to = _resolution(role.pitch, after, down=down)
        if to is None:
            continue
        kept = [item.name(other) for other in reversed(item.roles) if other is not role]
        with_them = f" with the {list_words(kept)}" if kept else ""
        return 2, f"{_figures(role.degree, to.degree)} {role.role.value}{with_them}"
    return None


def say_held(items: tuple[Item, ...], index: int) -> str | None:
    """``held over B7: 4-3 suspension`` where a note stays while its chord changes, and then steps down."""
    item, after = items[index], _next(items, index)
    chord = item.held
    if chord is None or after is None or not item.single or item.pitch % 12 in chord.semitones:
        return None
    to = _resolution(item.pitch, after, down=True)
    if to is None or to.role is not Role.CHORD_TONE or not after.top.chord.same_as(chord):
        return None
    return f"held over {chord.display}: {_figures(chord.degree_of(item.pitch), to.degree)} suspension"


def _next(items: tuple[Item, ...], index: int) -> Item | None:
    after = items[index + 1] if index + 1 < len(items) else None
    return after if after is not None and after.joined else None


def _resolution(pitch: int, after: Item, *, down: bool) -> RoleOf | None:
    moves = (-1, -2) if down else (1, 2)
    return next((role for role in after.roles if role.pitch - pitch in moves), None)


def _figures(over: str, to: str) -> str:
    """The degrees of both notes as thorough bass has them: ``4-3``, ``9-8``, ``7-8``."""
    number, goal = over.strip("b#"), to.strip("b#")
    if goal == "1":
        number, goal = number.replace("2", "9"), "8"
    return f"{number}-{goal}"


def leans(items: tuple[Item, ...], index: int) -> bool:
    """Whether a note outside the chord holds the bar line and gives way by step to a longer chord tone."""
    item, after = items[index], _next(items, index)
    if after is None or not item.single or not after.single or not isinstance(item.top.chord, Chord):
        return False
    if (
        item.bend
        or after.bend
        or item.role in (Role.CHORD_TONE, Role.UNEXPLAINED, *_SUSPENDED)
        or item.top.weight < DOWNBEAT
    ):
        return False
    falls = item.pitch - after.pitch in (1, 2)
    return falls and after.role is Role.CHORD_TONE and after.over(item) and after.top.length > item.top.length


def say_lean(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """``leans on the ninth, resolves to the root``."""
    if not leans(items, first):
        return None
    return 2, f"leans on the {items[first].degree}, resolves to the {items[first + 1].degree}"


def say_anticipation(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """``anticipates D: its third``; several notes early are one push."""
    last = first
    while (
        last < len(items)
        and all(role.role is Role.ANTICIPATION for role in items[last].roles)
        and (last == first or items[last].joined)
    ):
        last += 1
    chord = items[first].next_chord
    if last == first or chord is None:
        return None
    names = [name_of(role.pitch, chord) for item in items[first:last] for role in reversed(item.roles)]
    return last - first, f"anticipates {chord.display}: its {list_words(list(dict.fromkeys(names)))}"
