"""Where the fingering of a scale asks for a wide hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import FINGERS, WIDEST, reach
from lickwright.instrument.scale_fingering.ringing import HELD

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.instrument.guitar import Guitar
    from lickwright.instrument.scale_fingering.step import Step


@dataclass(frozen=True, slots=True)
class Wide:
    """Two notes under the hand, further apart than is comfortable.

    Attributes:
        one, other: In the order played.
    """

    one: Step
    other: Step
    millimetres: float


def widest(steps: Sequence[Step], guitar: Guitar, *, ringing: bool) -> Wide | None:
    """Return the widest reach beyond the comfortable one, of notes no further apart than the hand holds them.

    Args:
        steps: A scale, fingered.
        guitar: The instrument.
        ringing: Whether notes sound on, so that two on different strings are held together: then the reach
            of their fingers counts, else that of the whole hand, which opens from one note to the next.

    Returns:
        The reach, the first of equal ones; None where every one is comfortable.
    """
    found: list[Wide] = []
    for number, other in enumerate(steps):
        for one in steps[max(0, number - HELD + 1) : number]:
            if not _opens(one, other) or (ringing and one.string == other.string):
                continue
            distance = span(one.fret, other.fret, guitar.scale_length, guitar.capo)
            fingers = reach(int(one.finger), int(other.finger))
            comfortable = (fingers if ringing else WIDEST).comfortable
            if comfortable < distance <= fingers.possible:  # beyond that the hand has moved
                found.append(Wide(one, other, distance))
    return max(found, key=lambda wide: wide.millimetres, default=None)


def _opens(one: Step, other: Step) -> bool:
    """Whether two fingers lie as their frets do, not crossed."""
    if not {one.finger, other.finger} <= set(FINGERS) or one.finger == other.finger:
        return False
    return (one.fret < other.fret) == (one.finger < other.finger)
