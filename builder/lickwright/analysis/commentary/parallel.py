"""Remarks on double stops in a row: walking in sixths, rocking, one voice moving against one that stays."""

from __future__ import annotations

from itertools import pairwise

from lickwright.analysis.commentary.item import Item
from lickwright.analysis.commentary.together import name_all
from lickwright.analysis.commentary.walk import flows, run_of_singles
from lickwright.analysis.commentary.words import list_words, name_of, name_step, times
from lickwright.analysis.role import Role, RoleOf

STEP = 2
"""Half steps."""
WALK = 2
"""Steps from which it is a walk."""
PAIRS = 3
"""Broken double stops that make a walk."""
_FAMILIES = {
    3: "thirds", 4: "thirds", 5: "fourths", 7: "fifths", 8: "sixths", 9: "sixths", 12: "octaves",
    15: "tenths", 16: "tenths",
}  # fmt: skip


def say_double_stops(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Double stops of one kind that step one way: ``sixths walking down to the fifth and third of F7``.

    The step from the one before them counts: where a line turns round, one remark ends and the next begins.
    """
    family = _family(items[first])
    if family is None:
        return None
    start = last = first
    if first and items[first].joined and _step(items[first - 1], items[first]):
        start = first - 1
    while last + 1 < len(items) and items[last + 1].joined and _family(items[last + 1]) == family:
        step = _step(items[last], items[last + 1])
        if step is None or (step and not _onward(items[start : last + 1], step)):
            break
        last += 1
    moves = [b.pitch - a.pitch for a, b in pairwise(items[start : last + 1])]
    steps = [move for move in moves if move]
    if not steps:
        return _repeated(items, first, last, family)
    return last - first + 1, f"{family} {_how(items[start : last + 1], steps)}{_goal(items, start, last)}"


def say_rocking(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """A double stop, one a step away, and the first again: ``fifth and root with their neighbours above``."""
    start = first
    while start + 1 < len(items) and _step(items[start], items[start + 1]) == 0 and items[start + 1].joined:
        start += 1
    if not _rocks(items, start) or not items[start].over(items[first]):
        return None
    last = start + 2
    while _rocks(items, last) and items[last + 1].pitch == items[start + 1].pitch:
        last += 2
    family, away = _family(items[start]), items[start + 1].pitch > items[start].pitch
    count = (last - start) // 2
    often = f", {times(count)}" if count > 1 else ""
    side = "above" if away else "below"
    return last - first + 1, f"{name_all(items[first])} with their neighbours {side}, in {family}{often}"


def _rocks(items: tuple[Item, ...], first: int) -> bool:
    row = items[first : first + 3]
    if len(row) < 3 or not all(item.joined for item in row[1:]) or _family(row[0]) is None:
        return False
    there, back = _step(row[0], row[1]), row[2].pitch == row[0].pitch
    if not there or not back or _step(row[1], row[2]) is None or not row[2].over(row[0]):
        return False
    return not all(role.role is Role.CHORD_TONE for role in row[1].roles) and all(
        role.role is Role.CHORD_TONE for role in row[0].roles
    )


def say_oblique(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """One note stays, the other steps away and back: ``the third with its neighbour a half step above``."""
    row = items[first : first + 3]
    if len(row) < 3 or any(len(item.roles) != 2 for item in row) or not all(i.joined for i in row[1:]):
        return None
    if [r.pitch for r in row[0].roles] != [r.pitch for r in row[2].roles] or not row[2].over(row[0]):
        return None
    for moves, stays in ((0, 1), (1, 0)):
        there = row[1].roles[moves].pitch - row[0].roles[moves].pitch
        if row[1].roles[stays].pitch != row[0].roles[stays].pitch or not 1 <= abs(there) <= STEP:
            continue
        if row[1].roles[moves].role in (Role.CHORD_TONE, Role.UNEXPLAINED):
            continue
        side = "above" if there > 0 else "below"
        held = f"{'over' if stays else 'under'} the {row[0].name(row[0].roles[stays])}"
        name = row[0].name(row[0].roles[moves])
        return 3, f"the {name} with its neighbour a {name_step(there)} {side}, {held}"
    return None


def say_broken(items: tuple[Item, ...], first: int) -> tuple[int, str] | None:
    """Three double stops or more, one note after the other: ``broken sixths walking up``."""
    way, last = 0, first
    if not items[first].single or not flows(items, first + 1):
        return None
    family = _FAMILIES.get(abs(items[first + 1].pitch - items[first].pitch))
    if family is None:
        return None
    end = run_of_singles(items, first)
    side = items[first + 1].pitch - items[first].pitch
    while last + 3 < end:
        size = items[last + 3].pitch - items[last + 2].pitch
        steps = [items[last + 2 + i].pitch - items[last + i].pitch for i in (0, 1)]
        if _FAMILIES.get(abs(size)) != family or (size > 0) != (side > 0):
            break
        if not all(1 <= abs(step) <= STEP and (step > 0) == (steps[0] > 0) for step in steps):
            break
        if way and (steps[0] > 0) != (way > 0):
            break
        way, last = steps[0], last + 2
    if (last - first) // 2 + 1 < PAIRS:
        return None
    return last - first + 2, f"broken {family} walking {'up' if way > 0 else 'down'}"


def _repeated(items: tuple[Item, ...], first: int, last: int, family: str) -> tuple[int, str] | None:
    row = items[first : last + 1]
    if len(row) == 1:
        return None
    home = all(role.role is Role.CHORD_TONE for role in row[0].roles) and all(i.over(row[0]) for i in row)
    if not home:
        return None
    return len(row), f"{name_all(row[0])} of {row[0].top.chord.display} in {family}, repeated"


def _step(one: Item, two: Item) -> int | None:
    """Half steps of the upper note, where both notes step the same way or both stay; else None."""
    if _family(one) is None or _family(one) != _family(two):
        return None
    upper, lower = (b.pitch - a.pitch for a, b in zip(one.roles, two.roles, strict=True))
    if upper == lower == 0:
        return 0
    if not (1 <= abs(upper) <= STEP and 1 <= abs(lower) <= STEP) or (upper > 0) != (lower > 0):
        return None
    return upper


def _onward(row: tuple[Item, ...], step: int) -> bool:
    moves = [b.pitch - a.pitch for a, b in pairwise(row) if b.pitch != a.pitch]
    return not moves or (moves[-1] > 0) == (step > 0)


def _how(row: tuple[Item, ...], steps: list[int]) -> str:
    verb = "walking" if len(steps) >= WALK else "stepping"
    way = "up" if steps[0] > 0 else "down"
    if len(steps) >= WALK and all(abs(step) == 1 for step in steps):
        return f"{verb} {way} by half steps"
    chromatic = any(role.chromatic for item in row for role in item.roles)
    run = any(abs(a) == abs(b) == 1 for a, b in pairwise(steps))
    return f"{verb} {way}{' with half steps' if chromatic and run else ''}"


def _goal(items: tuple[Item, ...], start: int, last: int) -> str:
    end, coming = items[last], items[last].held
    if coming is not None and all(role.pitch % 12 in coming.semitones for role in end.roles):
        names = list_words([name_of(role.pitch, coming) for role in reversed(end.roles)])
        return f" to the {names} of {coming.display}, early"
    if not all(_rests(role) for role in end.roles):
        home = all(role.role is Role.CHORD_TONE for role in items[start].roles)
        return f" from the {name_all(items[start])}" if home else ""
    of = "" if end.over(items[start]) else f" of {end.top.chord.display}"
    return f" to the {name_all(end)}{of}"


def _rests(role: RoleOf) -> bool:
    return role.role in (Role.CHORD_TONE, Role.TENSION)


def _family(item: Item) -> str | None:
    if len(item.roles) != 2:
        return None
    return _FAMILIES.get(item.roles[0].pitch - item.roles[1].pitch)
