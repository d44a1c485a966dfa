"""A lick resolved: fields from the lick, its progression or the course; bars laid out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from lickwright.instrument.guitar import Guitar
from lickwright.model.address import AddressRange
from lickwright.model.bar import Bar, Voice
from lickwright.model.blocks import Lick, title_of
from lickwright.model.course import Settings
from lickwright.model.fields import Picking, PositionClaim
from lickwright.model.music import Line, Music, MusicBar, Piece
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.grouping import check_values, shares_of
from lickwright.model.timeline.harmony import Grid, meters_of
from lickwright.model.timeline.layout import Frame, VoiceLayout
from lickwright.model.timeline.overlay import chords_of_bars, grid_of
from lickwright.model.timeline.repeats import unfold
from lickwright.model.timeline.swing import swings
from lickwright.model.timeline.tempi import check_slow, counted, reduced
from lickwright.model.timeline.wording import NO_NAMES, Names, say_range
from lickwright.text import Span
from lickwright.theory.key import Key
from lickwright.theory.meter import Meter

FOUR_FOUR = Meter(4, 4)
EIGHTH = Fraction(1, 2)


def guitar_of(lick: Lick, settings: Settings) -> Guitar:
    """The guitar a lick is for: the course's, with the lick's own tuning and capo."""
    guitar = settings.guitar
    return replace(
        guitar,
        tuning=lick.tuning or guitar.tuning,
        capo=guitar.capo if lick.capo is None else lick.capo,
    )


def resolve_lick(
    lick: Lick, grids: Mapping[str, Grid], settings: Settings, faults: Faults, names: Names = NO_NAMES
) -> Piece:
    """Resolve a lick whose variations are already applied.

    Args:
        lick: With bars of its own.
        grids: The course's progressions by name.
        settings: What the course says for every lick.
        faults: Told of everything that does not fit.
        names: Of the course, for what is not found.
    """
    grid = grid_of(lick.over, grids, faults, names)
    meter = lick.meter or (grid.meter if grid else FOUR_FOUR)
    feel = lick.feel or (grid.feel if grid else settings.feel)
    key = lick.key or (grid.key if grid else settings.key)
    if grid and lick.meter and lick.meter != grid.meter:
        faults.add(
            "rhythm/over-meter",
            f"the lick is in {lick.meter}, its progression in {grid.meter}",
            lick.place_of("meter"),
            help="Take the meter of the progression",
        )
    if grid and lick.key and lick.key != grid.key:
        faults.add(
            "harmony/key-disagrees",
            f"the lick is in {lick.key.name}, its progression in {grid.key.name}",
            lick.place_of("key"),
        )
    tempo = counted(lick.tempo or (grid.tempo if grid else settings.tempo), meter)
    music = _music(lick, grid, key, meter, swung=swings(feel, meter), settings=settings, faults=faults)
    _check_bars(lick, music, faults)
    slow = counted(lick.slow, meter) if lick.slow else reduced(tempo)
    place = _place_of_slow(lick)
    if place is not None:
        check_slow(slow, tempo, meter, place, faults)
    return Piece(
        name=lick.name,
        kind="lick",
        title=lick.title or title_of(lick.name),
        music=music,
        feel=feel,
        tempo=tempo,
        slow=slow,
        ladder=tuple(counted(rung, meter) for rung in lick.ladder),
        claims=lick.claims,
        positions=lick.position,
        source=lick.source or settings.source,
        take=lick.take,
        tags=lick.tags,
        stets=lick.stets,
        closed=lick.ending != "open",
        of=lick.vary or "",
        over=lick.over.progression if lick.over else "",
        style=settings.style,
        level=settings.level,
        span=lick.span,
    )


def _place_of_slow(lick: Lick) -> Span | None:
    """Where a reduced tempo is told that it is none; None where the reader has looked already.

    A lick with both fields was looked at when it was read, and what a variation only takes over
    is its base's matter.
    """
    taken_over = None if lick.vary is None else lick.place_of("vary")
    own = [name for name, span in lick.places if span != taken_over]
    if lick.slow is None or {"slow", "tempo"} <= set(own):
        return None
    return next((lick.place_of(name) for name in ("slow", "tempo", "over", "meter") if name in own), None)


def _check_bars(lick: Lick, music: Music, faults: Faults) -> None:
    """Positions and claims name bars that are there."""
    numbers = [bar.number for bar in music.bars]
    named = [(claim.bars, claim.span) for claim in lick.position]
    named += [(claim.bars, claim.span) for claim in lick.claims]
    for bars, span in named:
        if bars is not None and not {bars.first.bar, bars.last.bar} <= set(numbers):
            faults.add(
                "course/field-bars",
                f"the lick has no {say_range(bars)}",
                span,
                help=f"Its bars are {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else "It has one bar",
            )


def _music(
    lick: Lick,
    grid: Grid | None,
    key: Key,
    meter: Meter,
    *,
    swung: bool,
    settings: Settings,
    faults: Faults,
) -> Music:
    guitar = guitar_of(lick, settings)
    step = lick.step or EIGHTH
    pickup = lick.pickup or None
    margins = [bar.margin for bar in lick.bars]
    meters = meters_of(margins, meter)
    short = frozenset(
        i
        for i, bar in enumerate(lick.bars)
        if pickup is not None and _filled(bar, step) == meters[i].length - pickup
    )
    unfolded = unfold(margins, pickup=pickup is not None, short=short)
    first = 0 if pickup is not None else 1
    offsets = [
        meters[0].length - pickup if pickup is not None and index == 0 else Fraction(0)
        for index in range(len(margins))
    ]

    def frames(voices: Sequence[Voice | None]) -> list[Frame]:
        return [
            Frame(first + i, meters[i], offsets[i], voice, unfolded.before.get(i))
            for i, voice in enumerate(voices)
        ]

    upper = VoiceLayout(guitar, step, faults, swung=swung, lower=False).lay_out(
        frames([bar.upper for bar in lick.bars])
    )
    lower = VoiceLayout(guitar, step, faults, swung=swung, lower=True).lay_out(
        frames([bar.lower for bar in lick.bars])
    )
    for lines in (upper, lower):
        for i, line in enumerate(lines):
            if line is not None:
                check_values(line, first + i, faults, lower=lines is lower)
    lengths = [
        _length(lick.bars[i], i, len(margins), meters[i], pickup, upper[i]) for i in range(len(margins))
    ]
    chords = chords_of_bars(lick, grid, unfolded.order, meters, offsets, lengths, faults)
    bars = []
    for i, bar in enumerate(lick.bars):
        voice = upper[i]
        assert voice is not None
        bars.append(
            MusicBar(
                number=first + i,
                meter=meters[i],
                meter_shown=i == 0 or meters[i] != meters[i - 1],
                length=lengths[i],
                chords=chords[i],
                upper=voice,
                lower=lower[i],
                offset=offsets[i],
                opens=bar.margin.opens,
                closes=bar.margin.closes,
                endings=bar.margin.endings,
                ending_closed=i in unfolded.ending_ends,
                times=bar.margin.times or 2,
                span=bar.span,
            )
        )
    return Music(
        key=key,
        guitar=guitar,
        bars=tuple(bars),
        order=unfolded.order,
        swung=swung,
        positions=_positions(lick.position, tuple(bar.number for bar in bars)),
        picking=lick.picking or Picking(),
    )


def _filled(bar: Bar, step: Fraction) -> Fraction:
    """Sum of a bar's slots, in quarters."""
    return sum(map(shares_of, bar.upper.slots)) * step


def _length(
    bar: Bar, index: int, count: int, meter: Meter, pickup: Fraction | None, line: Line | None
) -> Fraction:
    """What the bar must hold: the last one, or one that closes a repeat, may make up for the pickup."""
    if pickup is None:
        return meter.length
    if index == 0:
        return pickup
    short = meter.length - pickup
    if (index == count - 1 or bar.margin.closes) and line is not None and line.filled == short:
        return short
    return meter.length


def _positions(claims: Sequence[PositionClaim], numbers: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Where each claimed position begins, by bar number."""
    begins = []
    for claim in claims:
        bars: AddressRange | None = claim.bars
        start = bars.first.bar if bars else (numbers[0] if numbers else 1)
        begins.append((start, claim.fret))
    return tuple(sorted(begins))
