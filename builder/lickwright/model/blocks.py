"""The blocks of a lesson as written. None stands for a field the author left out."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from lickwright.instrument.tuning import Tuning
from lickwright.model.address import AddressRange
from lickwright.model.bar import Bar, Margin
from lickwright.model.fields import (
    Change,
    Claim,
    Feel,
    Over,
    Picking,
    PositionClaim,
    Provenance,
    Shape,
    Stet,
    Take,
    Tempo,
)
from lickwright.model.place import place
from lickwright.text import Span
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter

FieldPlaces = tuple[tuple[str, Span], ...]
"""Where each written field's value stands: (field name, span)."""


def field_places() -> FieldPlaces:
    """Return the dataclass field that keeps the places of written fields."""
    places: FieldPlaces = field(default=(), compare=False, repr=False)
    return places


def title_of(name: str) -> str:
    """Return the title of a block that gives none: its name, spaced."""
    return name.replace("-", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Lick:
    """A phrase. ``bars`` is empty in a variation, which holds ``changes`` instead."""

    name: str
    bars: tuple[Bar, ...] = ()
    title: str | None = None
    key: Key | None = None
    meter: Meter | None = None
    step: Fraction | None = None
    tempo: Tempo | None = None
    slow: Tempo | None = None
    ladder: tuple[Tempo, ...] = ()
    feel: Feel | None = None
    over: Over | None = None
    position: tuple[PositionClaim, ...] = ()
    picking: Picking | None = None
    claims: tuple[Claim, ...] = ()
    pickup: Fraction | None = None
    tuning: Tuning | None = None
    capo: int | None = None
    ending: Literal["closed", "open"] | None = None
    source: Provenance | None = None
    take: Take | None = None
    shapes: tuple[Shape, ...] = ()
    tags: tuple[str, ...] = ()
    vary: str | None = None
    changes: tuple[Change, ...] = ()
    stets: tuple[Stet, ...] = ()
    span: Span = place()
    places: FieldPlaces = field_places()

    def place_of(self, name: str) -> Span:
        """Where the value of a field stands; the block's own place when it was not written."""
        return next((span for written, span in self.places if written == name), self.span)


@dataclass(frozen=True, slots=True)
class Progression:
    """A chord grid: what the band plays. Each cell is a margin."""

    name: str
    cells: tuple[Margin, ...] = ()
    title: str | None = None
    key: Key | None = None
    meter: Meter | None = None
    feel: Feel | None = None
    tempo: Tempo | None = None
    stets: tuple[Stet, ...] = ()
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class ChorusPart:
    """A lick played ``times`` times, or (``lick`` empty) ``times`` bars of rest."""

    lick: str
    times: int = 1
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Chorus:
    """Licks played end to end over one progression."""

    name: str
    over: Over | None = None
    parts: tuple[ChorusPart, ...] = ()
    title: str | None = None
    slow: Tempo | None = None
    stets: tuple[Stet, ...] = ()
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class Excerpt:
    """Some bars or sounds of a lick or chorus. ``show`` None = all of it."""

    of: str
    show: AddressRange | None = None
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class ScaleBlock:
    """A scale whose fingering the builder computes. ``start`` and ``stop`` are (string, fret)."""

    name: str
    scale: str = ""
    start: tuple[int, int] | None = None
    stop: tuple[int, int] | None = None
    position: int | None = None
    notes_a_string: int | None = None
    open_strings: bool = False
    title: str | None = None
    tempo: Tempo | None = None
    stets: tuple[Stet, ...] = ()
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class NeckBlock:
    """A fretboard picture.

    Attributes:
        show: ``("chord", "A7")``, ``("scale", "A major")`` or ``("notes", "A C# E")``; None with ``of``.
        of: A lick's name, or empty.
        bars: Which of its bars.
        frets: First and last fret, inclusive.
        strings: First and last string, inclusive.
        labels: What is written on the dots.
    """

    show: tuple[Literal["chord", "scale", "notes"], str] | None = None
    of: str = ""
    bars: AddressRange | None = None
    frets: tuple[int, int] | None = None
    strings: tuple[int, int] | None = None
    labels: Literal["names", "degrees", "fingers"] | None = None
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class OpenStringsBlock:
    """Which open strings serve in which keys."""

    keys: tuple[Key, ...] = ()
    span: Span = place()
    places: FieldPlaces = field_places()


@dataclass(frozen=True, slots=True)
class TunerBlock:
    """Reference tones for the strings of the course tuning."""

    span: Span = place()
    places: FieldPlaces = field_places()


Block = Lick | Progression | Chorus | Excerpt | ScaleBlock | NeckBlock | OpenStringsBlock | TunerBlock
