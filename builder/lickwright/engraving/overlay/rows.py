"""In which order signs take their place, from the staff outwards, and at which height."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.ink import GAP

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from lickwright.engraving.overlay.ink import Box, Ink

_ORDER = (
    "bend", "stroke", "articulation", "letter", "harmonic", "tremolo", "vibrato", "effect", "swell",
    "mute", "ring", "tuplet", "position", "ending", "rit", "chord", "times", "swing", "title",
    "hand", "finger", "mark",
)  # fmt: skip
"""From the staff outwards (common practice; the rows of the hands, under the staff, come last)."""
_RANK = {row: number for number, row in enumerate(_ORDER)}
_LEVEL = frozenset({"bend", "mute", "ring", "position", "ending", "rit", "hand", "finger", "chord"})
"""Signs of such a row stand at one height in a system; all others each as near as they can."""
_FIRST = {"bend": 150.0, "chord": 170.0, "position": 110.0, "ending": 110.0, "mute": 70.0, "ring": 70.0}
"""How far from the outer line of the staff a row begins; else :data:`GAP`."""


@dataclass(frozen=True, slots=True)
class Wish:
    """A sign that is placed but for its height.

    Attributes:
        system, staff: Where.
        row: One of those that have an order.
        boxes: Its ink about a height of 0.
        draw: Draws it at a height.
        under: Whether it stands under the staff.
        fixed: Whether it must stand at the very height of its row.
    """

    system: int
    staff: str
    row: str
    boxes: tuple[Box, ...]
    draw: Callable[[float], None]
    under: bool = False
    fixed: bool = False


def settle(wishes: Iterable[Wish], inks: Sequence[dict[str, Ink]]) -> None:
    """Draw all signs, each row as near to its staff as what is drawn already lets it."""

    def place(wish: Wish) -> tuple[int, str, int, bool]:
        return wish.system, wish.staff, _RANK[wish.row], wish.under

    for (system, staff, _, under), found in groupby(sorted(wishes, key=place), place):
        row = list(found)
        ink = inks[system][staff]
        boxed = [box for wish in row for box in wish.boxes]
        first = _FIRST.get(row[0].row, GAP)
        if under:
            height = ink.foot + first - min((box[1] for box in boxed), default=0.0)
        else:
            height = ink.top - first - max((box[3] for box in boxed), default=0.0)
        if row[0].row in _LEVEL:
            height += _way(under) * ink.clear(_moved(boxed, height), under=under)
        for wish in row:
            own = height
            if not wish.fixed:
                own += _way(under) * ink.clear(_moved(wish.boxes, height), under=under)
            wish.draw(own)
            ink.add(*_moved(wish.boxes, own))


def _way(under: bool) -> int:
    return 1 if under else -1


def _moved(boxes: Iterable[Box], height: float) -> list[Box]:
    return [(left, top + height, right, foot + height) for left, top, right, foot in boxes]
