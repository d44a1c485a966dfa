"""Remarks on notes struck together: chords, double stops one by one, unison bends, the shuffle."""

from __future__ import annotations

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.words import list_words, times
from lickwright.analysis.role import Role
from lickwright.theory.chord import Chord

_BOOGIE = (7, 9, 10)


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


def say_unison_bend(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A string bent to the pitch of another that sounds with it, once or several times."""
    if not _unison_bend(items[first]):
        return None
    last = first + 1
    while last < len(items) and _unison_bend(items[last]) and items[last].pitch == items[first].pitch:
        if not items[last].over(items[first]):
            break
        last += 1
    count = last - first
    return count, f"unison bend to the {items[first].degree}" + (f", {times(count)}" if count > 1 else "")


def _unison_bend(item: Item) -> bool:
    return (
        not item.single
        and len({role.pitch for role in item.roles}) == 1
        and any(note.bent for note in item.notes)
    )


def say_chord(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """One double stop, ``third and fifth of A together``, or a chord."""
    item = items[first]
    if item.single:
        return None
    chord = item.top.chord
    names = name_all(item)
    home = all(role.role is Role.CHORD_TONE for role in item.roles) and isinstance(chord, Chord)
    if len({role.interval for role in item.roles}) > 2 and isinstance(chord, Chord):
        if home:
            return 1, f"the chord of {chord.display}"
        return 1, f"over {chord.display} the {names} together"
    of = f" of {chord.display}" if home else ""
    if " and " in names:
        return 1, f"{names}{of} together"
    return 1, f"the {names}{of}{' in octaves' if len({r.pitch for r in item.roles}) > 1 else ' doubled'}"


def name_all(item: Item) -> str:
    """The degrees of a chord in words, from the lowest up, each once."""
    return list_words(list(dict.fromkeys(item.name(role) for role in reversed(item.roles))))
