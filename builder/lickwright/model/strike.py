"""What the hands do at one moment: notes and strikes as the author wrote them.

Conventions: strings count from 1, the highest-sounding; frets count from the
capo (0 = open); bend targets are frets and may end in a half (quarter tone).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from lickwright.model.place import place
from lickwright.text import Span


class BendKind(Enum):
    """How a string is bent; the value is the author's letter."""

    UP = "b"
    PRE = "pb"
    NUT = "nb"
    RELEASE = "r"


class Slide(Enum):
    """A slide from or to nowhere; the value is the author's sign."""

    RISING = "/"
    FALLING = "\\"


@dataclass(frozen=True, slots=True)
class Bend:
    """One bend or release to the pitch of fret ``to`` (half frets are quarter tones)."""

    kind: BendKind
    to: Fraction
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Fretted:
    """A fret held down; 0 is the open string."""

    fret: int


@dataclass(frozen=True, slots=True)
class Dead:
    """A muffled string, struck without pitch."""


@dataclass(frozen=True, slots=True)
class Tapped:
    """A fret tapped by the picking hand."""

    fret: int


@dataclass(frozen=True, slots=True)
class Hammered:
    """A fret hammered by the fretting hand with no stroke before it."""

    fret: int


@dataclass(frozen=True, slots=True)
class Harmonic:
    """A harmonic touched over fret ``touch``; ``fret`` is stopped (0 = open string)."""

    fret: int
    touch: Fraction


@dataclass(frozen=True, slots=True)
class Late:
    """A string that is still sounding, bent or let down here; not struck."""

    bend: Bend


Head = Fretted | Dead | Tapped | Hammered | Harmonic | Late


@dataclass(frozen=True, slots=True)
class Note:
    """One string of a strike."""

    string: int
    head: Head
    bends: tuple[Bend, ...] = ()
    vibrato: bool = False
    span: Span = place()

    @property
    def fret(self) -> int | None:
        """The fret held, 0 for an open string; None for dead and late notes."""
        fret: int | None = getattr(self.head, "fret", None)
        return fret


@dataclass(frozen=True, slots=True)
class Strike:
    """Notes sounded together, with the signs that belong to all of them.

    Attributes:
        notes: In the order written, at least one.
        slide_in: Slid into from below (RISING) or above (FALLING).
        slide_out: Slid out of upwards (RISING) or downwards (FALLING).
        accent: ``!``.
        short: ``'``.
        spread: ``^``, from the lowest string to the highest.
        shape: The name of the ``shape`` it was written as, or empty.
    """

    notes: tuple[Note, ...]
    slide_in: Slide | None = None
    slide_out: Slide | None = None
    accent: bool = False
    short: bool = False
    spread: bool = False
    shape: str = ""
    span: Span = place()
