"""Orders: what a page wants made. Equal orders share one result.

A page orders scores, sounds and files as values; ``building`` fills them from the cache
or by workers and hands the results back. Neither side calls the other.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from lickwright.model.address import Address
from lickwright.model.fields import Picking, Tempo
from lickwright.model.music import Music

Width = Literal["wide", "narrow"]
View = Literal["both", "tab", "staff"]


@dataclass(frozen=True, slots=True)
class ScoreOrder:
    """Notation wanted.

    Attributes:
        prefix: Begins every id in the SVG, unique on the page (``porch-step``); the
            engraver puts ``w-`` or ``n-`` before it.
        marks: Addresses to be marked (the sounds a finding is about).
        tone: Which tone of a marked sound alone is marked, from 1 as written; None is all of them.
        for_lick: Name to be given when the renderer fails; not part of the value.
    """

    music: Music
    prefix: str
    width: Width = "wide"
    view: View = "both"
    marks: tuple[Address, ...] = ()
    tone: int | None = None
    for_lick: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class SoundOrder:
    """Sound wanted: one part of a piece at one tempo.

    Attributes:
        bpm: Quarters a minute.
        part: ``lick`` (the band has its own orders later).
        picking: How strokes that are not marked fall.
    """

    music: Music
    bpm: Fraction
    part: Literal["lick"] = "lick"
    picking: Picking = Picking()
    for_lick: str = field(default="", compare=False)


Format = Literal["musicxml", "midi", "mei"]


@dataclass(frozen=True, slots=True)
class Credits:
    """What a file says of a piece besides its notes.

    Attributes:
        rights: The licence.
        source: Where the music is known from, or empty.
        own: False when the author has set another's music.
    """

    title: str
    author: str = ""
    rights: str = ""
    source: str = ""
    own: bool = True


@dataclass(frozen=True, slots=True)
class ExchangeOrder:
    """A file of an exchange format wanted.

    Attributes:
        tempo: With its beat.
    """

    music: Music
    format: Format
    tempo: Tempo
    credits: Credits
    for_lick: str = field(default="", compare=False)


Order = ScoreOrder | SoundOrder | ExchangeOrder


@dataclass(frozen=True, slots=True)
class BarBox:
    """Where a bar stands in its system, as fractions (0..1) of the SVG's width."""

    number: int
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class System:
    """One engraved system.

    Attributes:
        svg: A whole ``<svg>`` element, ids prefixed, no ``<style>``, ``currentColor``.
        bars: Its bars from left to right (written order).
        width, height: Of the viewBox, in SVG user units.
    """

    svg: str
    bars: tuple[BarBox, ...]
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Engraved:
    """A score made: one SVG a system, and what the engraver had to say.

    Attributes:
        glyphs: ``<symbol>``/``<g>`` definitions shared by the systems (put once a page), an SVG fragment.
        warnings: Verovio's own messages, if any.
    """

    systems: tuple[System, ...]
    glyphs: str = ""
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Recorded:
    """A sound made.

    Attributes:
        mp3: The encoded stem, 44.1 kHz mono.
        seconds: Its length, exact to the sample.
        bars: As played: (bar number, start, end) in seconds.
        lights: (seconds, sounding addresses as text) at every change.
    """

    mp3: bytes
    seconds: float
    bars: tuple[tuple[int, float, float], ...]
    lights: tuple[tuple[float, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Exchanged:
    """A file made."""

    content: bytes


Result = Engraved | Recorded | Exchanged
