"""Remarks on notes that lead: suspension, anticipation, enclosure, neighbour, approach, blue note."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.shape import goal
from lickwright.analysis.commentary.words import name_of, name_step
from lickwright.analysis.role import Role
from lickwright.model.slots import JoinKind

_BY = {
    JoinKind.HAMMER: "hammered", JoinKind.PULL: "pulled off", JoinKind.SLIDE: "slid", JoinKind.SHIFT: "slid",
}  # fmt: skip


def following(items: tuple[Item, ...], index: int) -> Item | None:
    """Return the single note that comes after one, without a long rest."""
    after = items[index + 1] if index + 1 < len(items) else None
    return after if after is not None and after.joined and after.single else None


def say_suspension(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """``4-3 suspension``: the held-over note and the one it gives way to."""
    item, after = items[first], following(items, first)
    if item.role not in (Role.SUSPENSION, Role.RETARDATION) or after is None:
        return None
    over, to = item.top.degree.strip("b#"), after.top.degree.strip("b#")
    if (over, to) == ("2", "1"):
        over = "9"
        to = "8"
    if to == "1":
        to = "8"
    return 2, f"{over}-{to} {item.role.value}"


def say_anticipation(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """``anticipates D: its third``; several notes early are one push."""
    last = first
    while (
        last < len(items) and items[last].role is Role.ANTICIPATION and (last == first or items[last].joined)
    ):
        last += 1
    chord = items[first].next_chord
    if last == first or chord is None:
        return None
    names = [name_of(item.pitch, chord) for item in items[first:last]]
    return last - first, f"anticipates {chord.display}: its {' and '.join(dict.fromkeys(names))}"


def say_enclosure(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Two to four notes round the one they lead to."""
    for count in (4, 3, 2):
        last = first + count
        if last >= len(items) or not items[last].at_rest:
            continue
        around = items[first:last]
        if not all(item.single for item in (*around, items[last])):
            continue
        if not all(item.joined for item in items[first + 1 : last + 1]):
            continue
        if around[0].role is Role.CHORD_TONE and not around[-1].top.chromatic:
            continue
        offsets = [item.pitch - items[last].pitch for item in around]
        if any(not 1 <= abs(o) <= 2 for o in offsets) or len({*offsets}) != count:
            continue
        if sum((a > 0) != (b > 0) for a, b in pairwise(offsets)) == 1:
            return count + 1, f"enclosure of {goal(items, first, last)}"
    return None


def say_neighbour(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note, a step away, and the note again."""
    middle = following(items, first)
    back = following(items, first + 1) if middle is not None else None
    if middle is None or back is None or not items[first].single:
        return None
    if middle.role is not Role.NEIGHBOUR or back.pitch != items[first].pitch:
        return None
    side = "above" if middle.pitch > back.pitch else "below"
    size = name_step(middle.pitch - back.pitch)
    return 3, f"the {back.degree} with its neighbour a {size} {side}"


def say_approach(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note that leads by step to the next: ``flat third hammered into the third``."""
    item, after = items[first], following(items, first)
    if after is None or not item.single:
        return None
    if item.role is Role.APPOGGIATURA:
        return 2, f"leans on the {item.degree}, resolves to {goal(items, first, first + 1)}"
    leads = item.role is Role.APPROACH or (item.role is Role.RESOLVED and after.at_rest)
    move = after.pitch - item.pitch
    if not leads or not 1 <= abs(move) <= 2 or not after.at_rest:
        return None
    link = after.note.sound.tones[after.note.tone].link
    by = f"{_BY[link]} " if link in _BY else ""
    if item.top.chromatic and not by:
        return 2, f"a {name_step(move)} {'up' if move > 0 else 'down'} into {goal(items, first, first + 1)}"
    return 2, f"{item.degree} {by or 'leading '}into {goal(items, first, first + 1)}"


def say_blue(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A curled or blue note by itself: ``blue third, curled``."""
    item = items[first]
    if not item.single or not (item.note.curl or item.role is Role.BLUE):
        return None
    name = item.degree
    if item.role is Role.BLUE:
        name = {"flat third": "blue third", "flat fifth": "blue fifth", "sharp fourth": "blue fifth"}.get(
            name, f"blue note, the {name}"
        )
    return 1, f"{name}, curled" if item.note.curl else name


def say_bend(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A bend by where it arrives, and each place it is let down or bent on to."""
    item = items[first]
    if not item.bend:
        return None
    words, last = [f"bend to the {item.degree}"], first + 1
    while last < len(items) and items[last].note.sound is item.note.sound and items[last].single:
        verb = "let down" if items[last].pitch < items[last - 1].pitch else "on"
        words.append(f"{verb} to the {items[last].degree}")
        last += 1
    reason = ": nothing explains it" if Role.UNEXPLAINED in {i.role for i in items[first:last]} else ""
    return last - first, ", ".join(words) + reason


def say_other(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note that stands for itself."""
    item, after = items[first], following(items, first)
    name = item.degree
    match item.role:
        case Role.ANTICIPATION if item.next_chord is not None:
            return 1, f"{name_of(item.pitch, item.next_chord)} of {item.next_chord.display}, early"
        case Role.UNEXPLAINED:
            return 1, f"{name}: nothing explains it"
        case Role.ESCAPE:
            return 1, f"{name}, an escape tone"
        case Role.CAMBIATA:
            return 1, f"{name}, a cambiata"
        case Role.DRONE:
            return 1, f"{name}, a drone" if not item.note.open else f"{name}, an open string that rings on"
        case Role.PASSING if after is not None:
            return 1, f"{name} in passing"
        case Role.RESOLVED:
            return 1, f"{name}, resolved"
        case Role.PATTERN | Role.PARALLEL | Role.ENCLOSURE | Role.APPROACH | Role.NEIGHBOUR:
            return 1, f"{name}, {_WORDS[item.role]}"
        case _:
            return None


_WORDS = {
    Role.PATTERN: "of a moved cell",
    Role.PARALLEL: "moving in parallel",
    Role.ENCLOSURE: "round its goal",
    Role.APPROACH: "on its way",
    Role.NEIGHBOUR: "a neighbour note",
}
