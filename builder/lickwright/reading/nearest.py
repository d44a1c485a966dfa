"""The nearest right word to a wrong one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

_LONGEST = 40
"""Longer words are not compared: they are no slips of the finger."""


def count_edits(one: str, other: str) -> int:
    """Return how many letters must be put in, left out, changed or swapped with their neighbour."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        before, last, row = row, before, [i]
        for j, b in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if last and i > 1 and j > 1 and a == other[j - 2] and one[i - 2] == b:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1]


def find_nearest(word: str, right: Iterable[str]) -> str | None:
    """Return the right word that differs least, None when none is near.

    Near is another case, the beginning of it, or about one letter in three wrong, three at most.
    """
    if len(word) > _LONGEST:
        return None
    folded = word.casefold()
    best: tuple[int, str] | None = None
    for candidate in right:
        known = candidate.casefold()
        cut_short = len(folded) > 2 and known.startswith(folded)
        away = 1 if cut_short and known != folded else count_edits(folded, known)
        if away <= min(3, (max(len(word), len(candidate)) + 1) // 3) and (best is None or away < best[0]):
            best = (away, candidate)
    return best[1] if best else None


def list_words(words: Iterable[str], last: str = "and") -> str:
    """Return ``a, b and c``."""
    *most, end = tuple(words) or ("nothing",)
    return f"{', '.join(most)} {last} {end}" if most else end
