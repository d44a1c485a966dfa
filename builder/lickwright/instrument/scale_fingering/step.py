"""One note of a fingered scale, and the notes a scale has between two places."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection


Place = tuple[int, int]
"""String and fret."""


@dataclass(frozen=True, slots=True, order=True)
class Step:
    """A note under the hand.

    Attributes:
        string, fret: Where; fret 0 is the open string.
        finger: ``0`` open, ``1`` to ``4``.
    """

    string: int
    fret: int
    finger: str

    @property
    def place(self) -> Place:
        """String and fret."""
        return self.string, self.fret


def pitches_between(semitones: Collection[int], start: int, stop: int) -> tuple[int, ...]:
    """Return the notes of a scale from one pitch to another, both included, up or down.

    Args:
        semitones: Pitch classes of the scale, 0 to 11.
        start: MIDI number of the first note.
        stop: Of the last; the scale falls where it is lower.
    """
    way = 1 if stop >= start else -1
    return tuple(midi for midi in range(start, stop + way, way) if midi % 12 in semitones)
