"""One thing under two names: a lick or a progression that was only renamed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from typing import TypeVar

from lickwright.model.canonical import digest

Thing = TypeVar("Thing")


def find_renamed(
    old: Mapping[str, Thing], new: Mapping[str, Thing], held: Callable[[Thing], object]
) -> dict[str, Thing]:
    """Return the things of the old edition by the names they have now, where there is no doubt which.

    Args:
        old: By name, as they were.
        new: By name, as they are.
        held: What makes one the same as another, without its name.
    """
    gone = {name: digest(held(thing)) for name, thing in old.items() if name not in new}
    come = {name: digest(held(thing)) for name, thing in new.items() if name not in old}
    times = Counter(gone.values()), Counter(come.values())
    names = {mark: name for name, mark in gone.items()}
    return {
        name: old[names[mark]] for name, mark in come.items() if times[0][mark] == 1 and times[1][mark] == 1
    }
