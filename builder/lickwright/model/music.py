"""Music with everything resolved: what checks, engraving, sound and words all read.

Conventions: time is in quarters, as exact fractions. ``onset`` counts from the
start of the bar as written; ``time`` is where it is played when the feel swings.
Pitches are MIDI numbers as fractions (a half is a quarter tone), sounding, with
tuning and capo counted in.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.fields import (
    Claim,
    Feel,
    Picking,
    PositionClaim,
    Provenance,
    Stet,
    Take,
    Tempo,
)
from lickwright.model.place import place
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Bend, Head, Slide
from lickwright.text import Span
from lickwright.theory.chord import ChordSymbol
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter


@dataclass(frozen=True, slots=True)
class ChordAt:
    """A chord that takes effect ``onset`` quarters into its bar.

    Attributes:
        carried: True when it only goes on from the bar before (not printed).
        stop: Struck once, then silence to the next chord.
        pushed: Written ``@4&``.
    """

    onset: Fraction
    symbol: ChordSymbol
    carried: bool = False
    stop: bool = False
    pushed: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Tone:
    """One string of a sound.

    Attributes:
        string: 1 = highest-sounding.
        head: As written; a late bend keeps its ``Late`` head.
        fret: The fret the pitch starts from: stopped fret, 0 open; None for dead notes.
        path: Pitch at the start, then after each bend or release in turn; empty for dead notes.
        link: How it continues the tone before it on its string; None = struck, tapped or hammered anew.
        struck: True when a stroke or tap begins it (not a join's target, not a late bend).
        tied: True when it is the same fret of the sound before, joined and not struck again.
        rings_through: Through how many following sounds of its voice, joined to this
            one and leaving this string alone, it sounds on.
        bends: Bends written on it, in order.
        finger: ``0``-``4``, ``T`` or None.
        hand: Plucking finger ``p i m a c``, pick ``P``, or None.
        name: Second witness: the note name the author gives, or None.
        degree: Second witness: the degree the author gives, or None.
    """

    string: int
    head: Head
    fret: int | None
    path: tuple[Fraction, ...]
    link: JoinKind | None = None
    struck: bool = True
    tied: bool = False
    rings_through: int = 0
    bends: tuple[Bend, ...] = ()
    vibrato: bool = False
    finger: str | None = None
    hand: str | None = None
    name: str | None = None
    degree: str | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class GraceNote:
    """A grace note (or the notes of a rake struck together) before a sound.

    Attributes:
        leads: How it goes on to what follows on its own string without a new stroke
            (hammer, pull, slide); None = what follows is struck.
    """

    tones: tuple[Tone, ...]
    leads: JoinKind | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Sound:
    """One sound of a voice: a note or chord where it begins.

    Attributes:
        address: ``2.3`` or ``low2.3``; a cut excerpt keeps the addresses of its lick.
        onset: In its bar, as written.
        duration: As written, holds included, over bar lines too (first time through).
        time: Onset in its bar as played (swing counted in).
        tones: In the order written.
        joined: The join that leads to this sound from the one before, if any; ``join_span``: its sign.
        stroke: ``d``, ``u`` or ``P`` for the whole sound (the ``rh`` row), or None.
        signs: Entries of the ``signs`` row, e.g. ``("tremolo", "ghost")``.
        ring: Number of the let-ring bracket it stands in, counted through the music from 1; 0 = none.
        mute: The same for palm mute.
        position: Fret of a position bracket it stands in (0 = open), else None.
        entries: Where each row speaks of it, by the kind of row: for findings.
    """

    address: Address
    onset: Fraction
    duration: Fraction
    time: Fraction
    tones: tuple[Tone, ...]
    joined: JoinKind | None = None
    grace: tuple[GraceNote, ...] = ()
    slide_in: Slide | None = None
    slide_out: Slide | None = None
    accent: bool = False
    short: bool = False
    spread: bool = False
    stroke: str | None = None
    signs: tuple[str, ...] = ()
    ring: int = 0
    mute: int = 0
    position: int | None = None
    entries: tuple[tuple[str, Span], ...] = field(default=(), compare=False, repr=False)
    span: Span = place()
    join_span: Span = place()


@dataclass(frozen=True, slots=True)
class Value:
    """A stretch of a voice that is printed as one note, chord or rest (or as tied values).

    Attributes:
        onset: In its bar, as written.
        duration: As written.
        time: Onset as played. ``until``: its end as played.
        sound: Address of the sound; None = a rest.
        tied: True when it goes on from the value before (a hold over a bar line or a group's edge).
        end_span: The token that ends it.
    """

    onset: Fraction
    duration: Fraction
    time: Fraction
    until: Fraction
    sound: Address | None
    tied: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Tuplet:
    """``number`` in the time of ``normal``; only groups that need a number become one."""

    number: int
    normal: int
    onset: Fraction
    duration: Fraction
    elements: tuple[Element, ...]
    span: Span = place()


Element = Value | Tuplet


@dataclass(frozen=True, slots=True)
class Line:
    """One voice of one bar.

    Attributes:
        elements: What is printed, in order; filled with rests to nothing: as written.
        sounds: What begins in the bar, in order.
        filled: Sum of the slots, in quarters.
        steps: Place of every slot on the bar level: (onset, span), for findings.
    """

    elements: tuple[Element, ...]
    sounds: tuple[Sound, ...]
    filled: Fraction
    steps: tuple[tuple[Fraction, Span], ...] = field(default=(), compare=False, repr=False)

    @property
    def values(self) -> tuple[Value, ...]:
        """The values in time order, tuplets opened up."""
        return tuple(_open(self.elements))


def _open(elements: tuple[Element, ...]) -> list[Value]:
    flat: list[Value] = []
    for element in elements:
        if isinstance(element, Tuplet):
            flat.extend(_open(element.elements))
        else:
            flat.append(element)
    return flat


@dataclass(frozen=True, slots=True)
class MusicBar:
    """A bar as printed.

    Attributes:
        number: As counted in addresses; 0 is the pickup.
        meter: In force. ``meter_shown``: printed at this bar (first bar or a change).
        length: What the bar must hold, in quarters: the meter's, the pickup's, or the
            shorter bar that makes up for a pickup.
        offset: Where in a whole bar of its meter it begins, in quarters (a pickup, a
            cut excerpt); metric weight and beams count from there.
        chords: In force, in order; the first stands at onset 0.
        opens, closes, endings, times: Repeat signs; ``times`` how often ``:|`` is played in all.
        ending_closed: True when the printed ending bracket ends with this bar.
        mark: A word above the bar (a lick's title in a chorus), or empty.
    """

    number: int
    meter: Meter
    meter_shown: bool
    length: Fraction
    chords: tuple[ChordAt, ...]
    upper: Line
    lower: Line | None = None
    offset: Fraction = Fraction(0)
    opens: bool = False
    closes: bool = False
    endings: tuple[int, ...] = ()
    ending_closed: bool = False
    times: int = 2
    mark: str = ""
    span: Span = place()

    @property
    def lines(self) -> tuple[Line, ...]:
        """Upper, then lower if there is one."""
        return (self.upper,) if self.lower is None else (self.upper, self.lower)

    def chord_at(self, onset: Fraction) -> ChordSymbol:
        """The chord in force ``onset`` quarters into the bar."""
        for chord in self.chords[:0:-1]:
            if chord.onset <= onset:
                return chord.symbol
        return self.chords[0].symbol


@dataclass(frozen=True, slots=True)
class Music:
    """The notes of a lick, excerpt or chorus: all that engraving and sound depend on.

    Attributes:
        key: Concert key (what sounds).
        swung: True when eighths swing (already counted into ``time``).
        bars: As written.
        order: Indices into ``bars`` as played, repeats and endings unfolded.
        positions: ``(bar number, fret)`` where a claimed position begins, in order; 0 = open.
    """

    key: Key
    guitar: Guitar
    bars: tuple[MusicBar, ...]
    order: tuple[int, ...]
    swung: bool = False
    positions: tuple[tuple[int, int], ...] = ()
    picking: Picking = Picking()

    def bar(self, number: int) -> MusicBar | None:
        """The bar of that number, if there is one."""
        return next((bar for bar in self.bars if bar.number == number), None)

    def sound(self, address: Address) -> Sound | None:
        """The sound at an address, if there is one (a bar that was cut keeps its addresses)."""
        bars = [bar for bar in self.bars if bar.number == address.bar] or self.bars[:1]
        found = (sound for bar in bars for line in bar.lines for sound in line.sounds)
        return next((sound for sound in found if sound.address == address), None)

    @property
    def has_lower(self) -> bool:
        """True when any bar has a second voice."""
        return any(bar.lower is not None for bar in self.bars)

    @property
    def counted_bars(self) -> int:
        """Written bars without the pickup, as prose counts them."""
        return sum(bar.number > 0 for bar in self.bars)


@dataclass(frozen=True, slots=True)
class Section:
    """A lick's stretch of a chorus: bars ``first`` to ``last`` (numbers in the chorus)."""

    lick: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Piece:
    """A lick, excerpt, chorus, variation or fingered scale, ready for every consumer.

    Attributes:
        name: Unique in the course; an excerpt's is its lick's with a number.
        of: The lick or chorus it shows a part of (excerpts), or its base (variations), or empty.
        changed: Addresses whose sound differs from the base (variations).
        over: Name of the progression, or empty.
        closed: False for a turnaround that is meant to hang.
        slow: The reduced tempo.
    """

    name: str
    kind: Literal["lick", "excerpt", "chorus", "scale"]
    title: str
    music: Music
    feel: Feel
    tempo: Tempo
    slow: Tempo
    ladder: tuple[Tempo, ...] = ()
    claims: tuple[Claim, ...] = ()
    positions: tuple[PositionClaim, ...] = ()
    source: Provenance = Provenance("own")
    take: Take | None = None
    tags: tuple[str, ...] = ()
    stets: tuple[Stet, ...] = ()
    closed: bool = True
    of: str = ""
    over: str = ""
    changed: tuple[Address, ...] = ()
    sections: tuple[Section, ...] = ()
    style: str = "country"
    level: str = "intermediate"
    span: Span = place()
