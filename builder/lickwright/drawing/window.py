"""The part of the neck that is shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lickwright.instrument.guitar import Guitar

OCTAVE = 12
_FEWEST = 4
_NEAR_NUT = 3
"""From so low a fret on the nut is shown, too."""


@dataclass(frozen=True, slots=True)
class Window:
    """Frets ``low`` to ``high`` on strings ``first`` to ``last``; fret 0 is the open string."""

    low: int
    high: int
    first: int
    last: int

    @property
    def frets(self) -> range:
        """From the nut up."""
        return range(self.low, self.high + 1)

    @property
    def strings(self) -> range:
        """From the highest-sounding."""
        return range(self.first, self.last + 1)


def window_of(
    guitar: Guitar, frets: tuple[int, int] | None = None, strings: tuple[int, int] | None = None
) -> Window:
    """Return the window that is asked for, as far as the neck goes; without frets the first octave.

    Args:
        guitar: The instrument.
        frets: First and last.
        strings: First and last.
    """
    low, high = frets or (0, OCTAVE)
    first, last = strings or (1, guitar.strings)
    end = guitar.highest_fret
    return Window(min(low, end), min(high, end), min(first, guitar.strings), min(last, guitar.strings))


def window_around(guitar: Guitar, frets: Sequence[int]) -> Window:
    """Return all strings, and the frets around those that are played."""
    fretted = [fret for fret in frets if fret]
    lowest, highest = min(fretted, default=1), max(fretted, default=1)
    low = 0 if lowest <= _NEAR_NUT or not all(frets) else lowest
    return window_of(guitar, (low, max(highest, low + _FEWEST)))
