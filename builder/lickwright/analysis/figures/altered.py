"""The altered dominant: flat and sharp ninth side by side, on their way to a note at rest.

A single one of them may be a slip; both, one beside the other, are the altered scale over a dominant that
goes home: ``b9 #9 b9 3``, ``#9 b9 1``.

References: altered dominants of chord-scale teaching (Nettles and Graf, from memory).
"""

from __future__ import annotations

from lickwright.analysis.moment import Moment
from lickwright.analysis.role import Role

ALTERED = frozenset({1, 3, 6, 8})
"""Half steps above the root: flat and sharp ninth, sharp eleventh, flat thirteenth."""
NINTHS = frozenset({1, 3})
APART = 3
"""Half steps from one to the next, and to the note at rest: the flat ninth rises three into the third."""


def find_altered(at: Moment) -> Role | None:
    """An altered tension in a run of them that has both ninths and ends on a note at rest."""
    if not at.over.dominant or _above(at, at.index) not in ALTERED or not _goes_home(at):
        return None
    first = last = at.index
    while first and _hangs(at, first - 1) and at.joined(first - 1, first):
        first -= 1
    while last + 1 < len(at.line) and _hangs(at, last + 1) and at.joined(last, last + 1):
        last += 1
    goal = last + 1
    if goal == len(at.line) or not at.joined(last, goal) or not at.setting.stable(at.line[goal]):
        return None
    steps = [abs(at.line[i + 1].pitch - at.line[i].pitch) for i in range(first, goal)]
    both = {_above(at, i) for i in range(first, goal)} >= NINTHS
    return Role.TENSION if both and max(steps) <= APART else None


def _above(at: Moment, index: int) -> int:
    return (at.line[index].pitch - at.over.root) % 12


def _hangs(at: Moment, index: int) -> bool:
    return at.line[index].chord == at.note.chord and _above(at, index) in ALTERED


def _goes_home(at: Moment) -> bool:
    """The dominant of the key, or one that goes on a fifth or a half step down."""
    root, after = at.over.root, at.setting.following(at.note)
    if (root - at.setting.tonic) % 12 == 7:
        return True
    return after is not None and after.harmony and (root - after.root) % 12 in (1, 7)
