"""Remarks on notes that lead: enclosure, neighbour, turn, approach, bend, blue note."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.walk import goal, say_walk
from lickwright.analysis.commentary.words import name_of, name_step, times
from lickwright.analysis.role import Role
from lickwright.model.slots import JoinKind

_BY = {
    JoinKind.HAMMER: "hammered", JoinKind.PULL: "pulled off", JoinKind.SLIDE: "slid", JoinKind.SHIFT: "slid",
}  # fmt: skip


def following(items: tuple[Item, ...], index: int) -> Item | None:
    """Return the single note that comes after one, without a long rest."""
    after = items[index + 1] if index + 1 < len(items) else None
    return after if after is not None and after.joined and after.single else None


def say_enclosure(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Two to four notes round the one they lead to."""
    for count in (4, 3, 2):
        last = first + count
        if last >= len(items) or items[last].role not in (Role.CHORD_TONE, Role.ANTICIPATION):
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


LONG_WALK = 4
"""Notes of a walk that begins on a neighbour and is the better word for it."""


def say_neighbour(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note, a step away, and the note again, once or several times."""
    text = _neighbour(items, first)
    if text is None:
        return None
    walk = say_walk(items, first + 1)
    if walk is not None and walk[0] >= LONG_WALK:
        return None
    last = first + 2
    while _neighbour(items, last) == text:
        last += 2
    count = (last - first) // 2
    return last - first + 1, text if count == 1 else f"{text}, {times(count)}"


def say_turn(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note with its neighbour, answered each time by the same note: twice or more."""
    text = _neighbour(items, first)
    if text is None:
        return None
    pitches = [item.pitch for item in items[first : first + CELL]]
    last = first
    while [item.pitch for item in items[last : last + CELL]] == pitches and _answered(items, last):
        last += CELL
    count = (last - first) // CELL
    if count < 2:
        return None
    return last - first, f"{text}, answered by the {items[first + CELL - 1].degree}, {times(count)}"


CELL = 4
"""Notes of a turn with its answer."""


def _answered(items: tuple[Item, ...], first: int) -> bool:
    cell = items[first : first + CELL]
    if len(cell) < CELL or _neighbour(items, first) is None:
        return False
    answer = cell[-1]
    return answer.single and answer.joined and answer.at_rest and answer.pitch != cell[0].pitch


def _neighbour(items: tuple[Item, ...], first: int) -> str | None:
    if first >= len(items):
        return None
    item, middle = items[first], following(items, first)
    back = following(items, first + 1) if middle is not None else None
    if middle is None or back is None or not item.single or back.pitch != item.pitch:
        return None
    if middle.role in (Role.CHORD_TONE, Role.UNEXPLAINED) or middle.bend or middle.note.curl:
        return None
    if not 1 <= abs(middle.pitch - item.pitch) <= 2 or Role.UNEXPLAINED in (item.role, back.role):
        return None
    if middle.role is not Role.NEIGHBOUR and back.role is not Role.CHORD_TONE:
        return None
    side = "above" if middle.pitch > item.pitch else "below"
    size = name_step(middle.pitch - item.pitch)
    return f"{goal(items, first, first + 2)} with its neighbour a {size} {side}"


def say_approach(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note that leads by step to the next: ``flat third hammered into the third``."""
    item, after = items[first], following(items, first)
    if after is None or not item.single:
        return None
    if item.role is Role.APPOGGIATURA:
        return 2, f"leans on the {item.degree}, resolves to {goal(items, first, first + 1)}"
    move = after.pitch - item.pitch
    by = f"{how} " if (how := _linked(after)) else ""
    leads = item.role in (Role.APPROACH, Role.RESOLVED) or (by and item.top.chromatic)
    if not leads or not 1 <= abs(move) <= 2 or not after.at_rest:
        return None
    if item.top.chromatic and not by:
        return 2, f"a {name_step(move)} {'up' if move > 0 else 'down'} into {goal(items, first, first + 1)}"
    return 2, f"{item.degree} {by or 'leading '}into {goal(items, first, first + 1)}"


def say_slurred(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """An approach by half step that is hammered, pulled or slid."""
    after = following(items, first)
    if after is None or not _linked(after) or abs(after.pitch - items[first].pitch) != 1:
        return None
    return say_approach(items, first) if after.role is Role.CHORD_TONE else None


def _linked(item: Item) -> str:
    link = item.note.sound.tones[item.note.tone].link
    return _BY.get(link, "") if link is not None and item.note.turn == 0 else ""


def say_blue(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A curled or blue note by itself: ``blue third, curled``; over another chord ``blue seventh of A``."""
    item = items[first]
    if not item.single or not (item.note.curl or item.role is Role.BLUE):
        return None
    name = item.blue(item.top) if item.role is Role.BLUE else item.degree
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
    return last - first, ", ".join(words)


def say_other(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A note that stands for itself."""
    item = items[first]
    name = item.degree
    match item.role:
        case Role.ANTICIPATION if item.next_chord is not None:
            return 1, f"the {name_of(item.pitch, item.next_chord)} of {item.next_chord.display}, early"
        case Role.UNEXPLAINED:
            return 1, f"the {name}"
        case Role.ESCAPE:
            return 1, f"the {name}, an escape tone"
        case Role.CAMBIATA:
            return 1, f"the {name}, a cambiata"
        case Role.DRONE:
            return (
                1,
                f"the {name}, a drone" if not item.note.open else f"the {name}, an open string that rings on",
            )
        case Role.PATTERN | Role.PARALLEL | Role.ENCLOSURE:
            return 1, f"the {name}, {_WORDS[item.role]}"
        case _:
            return None


_WORDS = {
    Role.PATTERN: "of a moved cell",
    Role.PARALLEL: "moving in parallel",
    Role.ENCLOSURE: "round its goal",
}
