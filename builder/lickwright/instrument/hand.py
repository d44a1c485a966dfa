"""How far the fretting hand reaches, and how the plucking hand lies over the strings.

Conventions: fingers of the fretting hand are 1 (index) to 4 (little), reaches are distances between frets
in mm; those of the plucking hand are lettered p i m a c, and P is the pick.

References: the order of the plucking fingers is common practice. Of reaches no published table was found:
the figures are our own, set so that one finger a fret from the fifth fret up is comfortable and five frets
at the nut are not; courses may change them.
"""

from __future__ import annotations

from dataclasses import dataclass

FINGERS = ("1", "2", "3", "4")
"""Those of the fretting hand that have a number: all but the thumb."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The reach between two fingers, in mm.

    Attributes:
        comfortable: Beyond it a stretch is put to the author.
        possible: Beyond it few hands can hold it.
    """

    comfortable: float
    possible: float


REACHES: dict[tuple[int, int], Reach] = {
    (1, 2): Reach(60.0, 75.0),
    (2, 3): Reach(50.0, 62.0),
    (3, 4): Reach(45.0, 58.0),
    (1, 3): Reach(88.0, 108.0),
    (2, 4): Reach(80.0, 98.0),
    (1, 4): Reach(112.0, 140.0),
}
"""Pairs of fingers, the lower number first."""

WIDEST = REACHES[1, 4]
"""The whole hand, for notes whose fingers are not said."""


PLUCKING: dict[str, int] = {"p": 0, "P": 0, "i": 1, "m": 2, "a": 3, "c": 4}
"""The thumb or the pick, then the fingers, in their order from the low strings to the high ones."""


def reach(finger: int, other: int) -> Reach:
    """The reach between two different fingers, in either order.

    Raises:
        KeyError: For a finger outside 1 to 4 or twice the same.
    """
    return REACHES[min(finger, other), max(finger, other)]
