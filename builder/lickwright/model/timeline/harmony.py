"""Chords laid out in time: margins, progressions, and what a lick is played over.

Conventions: several chords share a bar by equal whole beats unless ``@`` says
where they stand; an empty margin keeps the last chord.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from lickwright.model.bar import Margin, MarginChord
from lickwright.model.blocks import Progression, title_of
from lickwright.model.fields import Feel, Tempo
from lickwright.model.music import ChordAt
from lickwright.model.place import place
from lickwright.model.timeline.repeats import unfold
from lickwright.text import Span
from lickwright.theory.chord import NO_CHORD, Chord, ChordSymbol
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter

Chords = tuple[ChordAt, ...]

_TRIAD = frozenset({3, 4, 6, 7, 8})
_SEVENTHS = frozenset({10, 11})


@dataclass(frozen=True, slots=True)
class GridBar:
    """A bar of a progression as played: its meter and the chords in force."""

    meter: Meter
    chords: Chords


@dataclass(frozen=True, slots=True)
class Grid:
    """A progression resolved: what the band plays.

    Attributes:
        bars: As played, repeats and endings unfolded.
        written: Written bar number of each, from 1.
    """

    name: str
    title: str
    key: Key
    meter: Meter
    feel: Feel
    tempo: Tempo
    bars: tuple[GridBar, ...]
    written: tuple[int, ...]
    span: Span = place()


def place_chords(chords: Sequence[MarginChord], meter: Meter, offset: Fraction, length: Fraction) -> Chords:
    """Return a margin's chords with their onsets in the bar.

    Args:
        chords: As written; none gives none.
        meter: Of the bar.
        offset: Where in a whole bar this one begins (a pickup).
        length: Of the bar, in quarters; chords that would stand after it are left out.
    """
    placed = []
    for index, chord in enumerate(chords):
        onset = _onset(meter, chord.beat, index, len(chords), half=chord.half)
        onset = max(onset - offset, Fraction(0)) if offset else onset
        if onset < length or index == 0:
            placed.append(ChordAt(onset, chord.symbol, stop=chord.stop, pushed=chord.half, span=chord.span))
    return tuple(placed)


@lru_cache(maxsize=1024)
def _onset(meter: Meter, beat: int | None, index: int, count: int, *, half: bool) -> Fraction:
    """Quarters from the bar line to a chord, one of so many; remembered, as most stand alike."""
    beats = Fraction(meter.beats * index, count) if beat is None else beat - 1
    return (beats + (Fraction(1, 2) if half else 0)) * meter.beat


def carried(chords: Chords, before: ChordSymbol | None, span: Span) -> Chords:
    """Return the chords of a bar; where none stands at its start the last one before it goes on."""
    if chords and chords[0].onset == 0:
        return chords
    symbol = NO_CHORD if before is None else before
    return (ChordAt(Fraction(0), symbol, carried=True, span=span), *chords)


def resolve_progression(block: Progression, key: Key, feel: Feel, tempo: Tempo) -> Grid:
    """Return the grid of a progression; course-wide key, feel and tempo serve where it names none."""
    meter = block.meter or Meter(4, 4)
    unfolded = unfold(block.cells, pickup=False)
    meters = meters_of(block.cells, meter)
    bars = []
    last: ChordSymbol | None = None
    for index in unfolded.order:
        cell = block.cells[index]
        chords = place_chords(cell.chords, meters[index], Fraction(0), meters[index].length)
        chords = carried(chords, last, cell.span)
        last = chords[-1].symbol
        bars.append(GridBar(meters[index], chords))
    return Grid(
        block.name,
        block.title or title_of(block.name),
        block.key or key,
        meter,
        block.feel or feel,
        block.tempo or tempo,
        tuple(bars),
        tuple(index + 1 for index in unfolded.order),
        block.span,
    )


def meters_of(margins: Sequence[Margin], first: Meter) -> list[Meter]:
    """The meter in force in each bar; a meter in a margin holds from its bar on."""
    meters = []
    meter = first
    for margin in margins:
        meter = margin.meter or meter
        meters.append(meter)
    return meters


def disagreement(margin: ChordSymbol, over: ChordSymbol) -> str | None:
    """Return the rule that two symbols for one place break, or None when they agree.

    Root, bass and quality must be the same after spelling is evened out; the same chord
    with another extension (A7, A9) is a matter of colour.
    """
    if not isinstance(margin, Chord) or not isinstance(over, Chord):
        return None if margin == over else "harmony/chord-disagrees"
    if margin.same_as(over):
        return None
    ours, theirs = margin.quality.tones, over.quality.tones
    same_root = margin.root.semitone == over.root.semitone
    same_triad = ours & _TRIAD == theirs & _TRIAD
    sevenths = ours & _SEVENTHS, theirs & _SEVENTHS
    if same_root and same_triad and (sevenths[0] == sevenths[1] or not all(sevenths)):
        return "harmony/chord-colour"
    return "harmony/chord-disagrees"
