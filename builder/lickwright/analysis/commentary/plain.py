"""Remarks on what no figure takes: the tones of a chord, and why another note may stand among them."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.walk import goal
from lickwright.analysis.commentary.words import list_words, name_step
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

ARPEGGIO = 3
"""Tones of a chord that make an arpeggio."""
ON_ITS_WAY = " on its way to "
TURNS = 4
"""Notes from which two tones are said to take turns."""


def say_plain(items: tuple[Item, ...], first: int, end: int) -> list[tuple[int, str]]:
    """Say a stretch of single notes, one remark for each bar, chord and phrase.

    Args:
        items: Of the voice.
        first: Where the stretch begins; what lies round it belongs to figures.
        end: The index after it.

    Returns:
        For each remark how many items it takes, and its text.
    """
    found = []
    while first < end:
        last = first + 1
        while last < end and _goes_on(items[first], items[last]):
            last += 1
        found.append((last - first, _say(items, first, last)))
        first = last
    return found


def _goes_on(first: Item, item: Item) -> bool:
    """Whether a note belongs to the remark that one begins."""
    return item.joined and item.over(first) and item.top.address.bar == first.top.address.bar


def _say(items: tuple[Item, ...], first: int, end: int) -> str:
    """The parts in the order of their first notes: the tones of the chord, and each other degree."""
    row = items[first:end]
    tones = [item for item in row if item.role is Role.CHORD_TONE]
    parts: dict[str, str] = {}
    for index, item in enumerate(row, first):
        if item.role is Role.CHORD_TONE:
            parts.setdefault("", _tones(items, first, end, tones))
        else:
            parts.setdefault(item.degree, _reason(items, index))
    texts: list[str] = []
    for text in parts.values():
        goal = texts[-1].rpartition(ON_ITS_WAY)[2] if texts else ""
        if texts and goal != texts[-1] and text.startswith(f"{goal} of "):
            texts[-1] += text.removeprefix(goal)  # the goal is said once, with its chord
        else:
            texts.append(text)
    return "; ".join(texts)


def _tones(items: tuple[Item, ...], first: int, end: int, tones: list[Item]) -> str:
    chord = tones[0].top.chord.display
    names = list(dict.fromkeys(item.degree for item in tones))
    moves = [b.pitch - a.pitch for a, b in pairwise(tones)]
    alone = len(tones) == end - first
    if len({item.top.interval for item in tones}) >= ARPEGGIO:
        way = " up" if all(m > 0 for m in moves) else " down" if all(m < 0 for m in moves) else ""
        return f"arpeggio of {chord}{way if alone else ''}"
    if len(tones) == 1:
        return f"the {names[0]} of {chord}{_onward(items, first) if alone else ''}"
    if len(names) == 1:
        if any(moves):
            return f"the {names[0]} of {chord} in octaves"
        return f"the {names[0]} of {chord}" + (", repeated" if alone else "")
    turns = len(tones) >= TURNS and alone and all(moves) and len({i.top.interval for i in tones[::2]}) == 1
    turns = turns and len({item.top.interval for item in tones[1::2]}) == 1
    return f"{list_words(names)} of {chord}{' in turn' if turns else ''}"


def _onward(items: tuple[Item, ...], index: int) -> str:
    """Where a single tone leads by half step over the bar: ``, a half step below the root of D``."""
    after = items[index + 1] if index + 1 < len(items) else None
    item = items[index]
    if after is None or not after.joined or not after.single or after.over(item):
        return ""
    move = after.pitch - item.pitch
    if abs(move) != 1 or after.role is not Role.CHORD_TONE:
        return ""
    return f", a half step {'below' if move > 0 else 'above'} {goal(items, index, index + 1)}"


def _reason(items: tuple[Item, ...], index: int) -> str:
    """Why a note that is no chord tone may stand there."""
    item, name = items[index], f"the {items[index].degree}"
    before = items[index - 1] if index and item.joined else None
    after = items[index + 1] if index + 1 < len(items) and items[index + 1].joined else None
    if after is not None and 1 <= abs(after.pitch - item.pitch) <= 2 and _at_home(after):
        return f"{name}{ON_ITS_WAY}{goal(items, index, index + 1)}"
    if after is not None and (below := _among(after, item)):
        return f"{name}{ON_ITS_WAY}{below}"
    if before is not None and 1 <= abs(item.pitch - before.pitch) <= 2 and _at_home(before):
        size = name_step(item.pitch - before.pitch)
        return f"{name}, a {size} {'above' if item.pitch > before.pitch else 'below'} the {before.degree}"
    if item.role is Role.TENSION or not isinstance(item.top.chord, Chord):
        return f"{name} for colour"
    return f"{name}, {'in passing' if item.top.chromatic else 'a note of the key'}"


def _at_home(item: Item) -> bool:
    return item.single and item.role in (Role.CHORD_TONE, Role.TENSION, Role.ANTICIPATION)


def _among(chord: Item, item: Item) -> str:
    """The note of a double stop or chord that a single note steps to."""
    if chord.single:
        return ""
    to = [r for r in chord.roles if 1 <= abs(r.pitch - item.pitch) <= 2 and r.role is Role.CHORD_TONE]
    of = "" if chord.over(item) else f" of {chord.top.chord.display}"
    return f"the {chord.name(to[0])}{of}" if to else ""
