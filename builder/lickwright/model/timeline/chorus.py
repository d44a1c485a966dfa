"""Choruses: licks end to end over one progression, as one piece of music.

Conventions: a chorus counts its bars from 1 through all its licks, repeats written
out. A pickup sounds in the last bar of the lick before, in place of rests or of the
end of one held sound.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from lickwright.model.address import Address
from lickwright.model.blocks import Chorus, ChorusPart, title_of
from lickwright.model.course import Settings
from lickwright.model.music import Element, Line, Music, MusicBar, Piece, Section, Sound, Tuplet, Value
from lickwright.model.timeline.cutting import cut
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.harmony import Grid, carried, disagreement
from lickwright.model.timeline.overlay import grid_of
from lickwright.model.timeline.swing import swings
from lickwright.model.timeline.tempi import check_slow, counted, reduced
from lickwright.model.timeline.wording import NO_NAMES, Names
from lickwright.model.timeline.wording import counted as say
from lickwright.theory.meter import Meter


def resolve_chorus(
    block: Chorus,
    pieces: Mapping[str, Piece],
    grids: Mapping[str, Grid],
    settings: Settings,
    faults: Faults,
    names: Names = NO_NAMES,
) -> Piece | None:
    """Return the chorus as a piece; None when nothing of it can be played."""
    grid = grid_of(block.over, grids, faults, names)
    parts = [(part, pieces.get(part.lick)) for part in block.parts]
    parts = [(part, piece if piece is not None and piece.kind == "lick" else None) for part, piece in parts]
    for part, piece in parts:
        if part.lick and piece is None and not names.has(part.lick, "lick"):
            message, hint = names.missing(part.lick, "lick")
            faults.add("course/unknown-lick", message, part.span, help=hint)
    licks = [piece for _, piece in parts if piece is not None]
    if grid is None or not grid.bars or not licks:
        return None
    _check_alike(parts, grid, faults)
    swung = swings(grid.feel, grid.meter)
    bars, sections = _lay_end_to_end(parts, grid, faults)
    tempo = counted(grid.tempo, grid.meter)
    slow = counted(block.slow, grid.meter) if block.slow else reduced(tempo)
    _check_length(block, len([bar for bar, _ in bars if bar.number > 0]), grid, faults)
    check_slow(slow, tempo, grid.meter, dict(block.places).get("slow", block.span), faults)
    return Piece(
        name=block.name,
        kind="chorus",
        title=block.title or title_of(block.name),
        music=Music(
            key=grid.key,
            guitar=licks[0].music.guitar,
            bars=_over(bars, grid, faults),
            order=tuple(range(len(bars))),
            swung=swung,
        ),
        feel=grid.feel,
        tempo=tempo,
        slow=slow,
        source=licks[0].source,
        stets=block.stets,
        over=grid.name,
        sections=sections,
        style=settings.style,
        level=settings.level,
        span=block.span,
    )


def _check_length(block: Chorus, count: int, grid: Grid, faults: Faults) -> None:
    """The band expects whole turns of its progression."""
    turn = len(grid.bars)
    if count % turn:
        faults.add(
            "rhythm/chorus-length",
            f"the chorus is {say(count, 'bar')}, “{grid.name}” is {say(turn, 'bar')}: no whole turns of it",
            dict(block.places).get("licks", block.span),
            help=f"Add {say(turn - count % turn, 'bar')}, or rests, or take {say(count % turn, 'bar')} out",
        )


def _check_alike(parts: list[tuple[ChorusPart, Piece | None]], grid: Grid, faults: Faults) -> None:
    known = next(piece for _, piece in parts if piece is not None)
    for part, piece in parts:
        if piece is None:
            continue
        ours, theirs = piece.music.guitar, known.music.guitar
        if (ours.tuning, ours.capo) != (theirs.tuning, theirs.capo):
            faults.add(
                "course/chorus-guitar",
                f"“{piece.name}” is not in the tuning and capo of “{known.name}”",
                part.span,
                help="The licks of one chorus share tuning and capo",
            )
        meters = {bar.meter for bar in piece.music.bars}
        if meters - {bar.meter for bar in grid.bars}:
            faults.add(
                "course/chorus-meter",
                f"“{piece.name}” is not in the meter of “{grid.name}”",
                part.span,
                help="The licks of one chorus share the meter of their progression",
            )


def _lay_end_to_end(
    parts: list[tuple[ChorusPart, Piece | None]], grid: Grid, faults: Faults
) -> tuple[list[tuple[MusicBar, ChorusPart]], tuple[Section, ...]]:
    bars: list[tuple[MusicBar, ChorusPart]] = []
    sections: list[Section] = []
    for part, piece in parts:
        for _ in range(part.times):
            if piece is None:
                bars.append((_silence(len(_counted(bars)) + 1, grid), part))
                continue
            played = _bracketed(piece.music, [bar for bar, _ in bars])
            if played and played[0].number == 0:
                played = _merge_pickup(bars, played, part, faults)
            first = len(_counted(bars)) + 1
            for index, bar in enumerate(played):
                number = 0 if bar.number == 0 and not bars else len(_counted(bars)) + 1
                moved = _renumbered(bar, number, mark=piece.title if index == 0 else "")
                bars.append((moved, part))
            sections.append(Section(piece.name, first, len(_counted(bars))))
    filled = _held_on([_filled(bar) for bar, _ in bars])
    return list(zip(filled, (part for _, part in bars), strict=True)), tuple(sections)


def _bracketed(music: Music, before: list[MusicBar]) -> list[MusicBar]:
    """The bars as played; a bracket is another one each time, as it is after the lick before."""
    highest = max((max(s.ring, s.mute) for bar in before for s in _sounds(bar)), default=0)
    played: list[MusicBar] = []
    base, last = highest, -1
    for index in music.order:
        if index <= last:
            base = highest
        last = index
        bar = music.bars[index]
        if any(sound.ring or sound.mute for sound in _sounds(bar)):
            highest = max(highest, *(base + max(s.ring, s.mute) for s in _sounds(bar)))
            lower = None if bar.lower is None else _counted_on(bar.lower, base)
            bar = replace(bar, upper=_counted_on(bar.upper, base), lower=lower)
        played.append(bar)
    return played


def _counted_on(line: Line, by: int) -> Line:
    def moved(number: int) -> int:
        return number + by if number else 0

    return replace(
        line, sounds=tuple(replace(s, ring=moved(s.ring), mute=moved(s.mute)) for s in line.sounds)
    )


def _sounds(bar: MusicBar) -> tuple[Sound, ...]:
    return tuple(sound for line in bar.lines for sound in line.sounds)


def _held_on(bars: list[MusicBar]) -> list[MusicBar]:
    """Point a hold at a bar's start to the sound played before it: repeats are written out here."""
    held: dict[bool, Address | None] = {False: None, True: None}
    pointed = []
    for bar in bars:
        lines: list[Line | None] = []
        for lower, line in ((False, bar.upper), (True, bar.lower)):
            if line is None:
                lines.append(None)
                held[lower] = None
                continue
            first = line.values[0] if line.values else None
            if first is not None and first.tied:
                line = replace(line, elements=_repointed(line.elements, first.sound, held[lower]))  # noqa: PLW2901
            lines.append(line)
            held[lower] = line.values[-1].sound if line.values else held[lower]
        pointed.append(replace(bar, upper=lines[0] or bar.upper, lower=lines[1]))
    return pointed


def _repointed(
    elements: tuple[Element, ...], old: Address | None, new: Address | None
) -> tuple[Element, ...]:
    pointed: list[Element] = []
    for element in elements:
        if isinstance(element, Tuplet):
            pointed.append(replace(element, elements=_repointed(element.elements, old, new)))
        else:
            tied = element.tied and element.sound == old
            pointed.append(replace(element, sound=new) if tied else element)
    return tuple(pointed)


def _counted(bars: list[tuple[MusicBar, ChorusPart]]) -> list[MusicBar]:
    return [bar for bar, _ in bars if bar.number > 0]


def _silence(number: int, grid: Grid) -> MusicBar:
    meter = grid.bars[(number - 1) % len(grid.bars)].meter if grid.bars else grid.meter
    rest = Value(Fraction(0), meter.length, Fraction(0), meter.length, None)
    return MusicBar(number, meter, False, meter.length, (), Line((rest,), (), meter.length))


def _merge_pickup(
    bars: list[tuple[MusicBar, ChorusPart]], played: list[MusicBar], part: ChorusPart, faults: Faults
) -> list[MusicBar]:
    """Put a pickup into the last bar of the lick before; the first lick keeps its own bar 0."""
    if not bars:
        return played
    pickup = played[0]
    last, owner = bars[-1]
    place = last.meter.length - pickup.length
    free = all(_leaves_room(line, place) for line in last.lines)
    if not free:
        faults.add(
            "rhythm/seam",
            f"the pickup of “{part.lick}” needs {_beats(pickup.length)} at the end of the bar before it, "
            "which is played there",
            part.span,
            help="End the lick before with rests, or with one held sound",
        )
    count = len(last.upper.sounds)
    moved = _renumbered(pickup, last.number, mark="", add=count)
    upper = _appended(last.upper, moved.upper, place)
    lower = last.lower if last.lower is None else _silenced(last.lower, place, last.meter.length)
    bars[-1] = (replace(last, upper=upper, lower=lower, length=last.meter.length), owner)
    return played[1:]


def _beats(length: Fraction) -> str:
    eighths = length * 2
    return f"{eighths} eighth{'s' if eighths > 1 else ''}"


def _leaves_room(line: Line, place: Fraction) -> bool:
    """True when nothing begins at or after a place: rests, or one sound held."""
    return all(sound.onset < place for sound in line.sounds)


def _cut_off(line: Line, place: Fraction) -> Line:
    """The line up to a place; what is held there ends with it."""
    kept = cut(line, Fraction(0), place)
    sounds = tuple(replace(s, duration=min(s.duration, place - s.onset)) for s in kept.sounds)
    return replace(kept, sounds=sounds)


def _silenced(line: Line, place: Fraction, length: Fraction) -> Line:
    """The line up to a place, then a rest to the end of the bar."""
    kept = _cut_off(line, place)
    last = kept.elements[-1] if kept.elements else None
    since = last.until if isinstance(last, Value) else place
    rest = Value(place, length - place, since, length, None)
    return Line((*kept.elements, rest), kept.sounds, length)


def _appended(line: Line, pickup: Line, place: Fraction) -> Line:
    kept = _cut_off(line, place)
    gap = place - min(line.filled, place)
    elements = kept.elements
    if gap > 0:
        elements = (*elements, Value(line.filled, gap, line.filled, place, None))
    start = elements[-1].until if elements and isinstance(elements[-1], Value) else place
    moved = _shifted(pickup.elements, place, start)
    sounds = tuple(replace(s, onset=s.onset + place, time=s.time + start) for s in pickup.sounds)
    return Line((*elements, *moved), (*kept.sounds, *sounds), place + pickup.filled)


def _shifted(elements: tuple[Element, ...], by: Fraction, time: Fraction) -> tuple[Element, ...]:
    shifted: list[Element] = []
    for element in elements:
        if isinstance(element, Tuplet):
            inner = _shifted(element.elements, by, time)
            shifted.append(replace(element, onset=element.onset + by, elements=inner))
        else:
            shifted.append(
                replace(
                    element,
                    onset=element.onset + by,
                    time=element.time + time,
                    until=element.until + time,
                )
            )
    return tuple(shifted)


def _filled(bar: MusicBar) -> MusicBar:
    """A last bar that was short for a pickup is filled up with a rest."""
    whole = bar.meter.length - bar.offset
    if bar.number == 0 or bar.length >= whole:
        return bar
    rest = Value(bar.length, whole - bar.length, bar.length, whole, None)
    upper = replace(bar.upper, elements=(*bar.upper.elements, rest), filled=whole)
    lower = bar.lower
    if lower is not None:
        lower = replace(lower, elements=(*lower.elements, rest), filled=whole)
    return replace(bar, length=whole, upper=upper, lower=lower)


def _renumbered(bar: MusicBar, number: int, *, mark: str, add: int = 0) -> MusicBar:
    def line(old: Line) -> Line:
        sounds = tuple(_readdressed(sound, bar.number, number, add) for sound in old.sounds)
        return replace(old, sounds=sounds, elements=_pointed(old.elements, bar.number, number, add))

    return replace(
        bar,
        number=number,
        mark=mark,
        upper=line(bar.upper),
        lower=None if bar.lower is None else line(bar.lower),
        opens=False,
        closes=False,
        endings=(),
        ending_closed=False,
        meter_shown=False,
    )


def _address(old: Address, bar: int, number: int, add: int) -> Address:
    """A sound held over from bars before keeps its distance in bars."""
    moved = 0 if old.sound is None or old.bar != bar else add
    return Address(old.bar - bar + number, (old.sound or 0) + moved, old.lower)


def _readdressed(sound: Sound, bar: int, number: int, add: int) -> Sound:
    return replace(sound, address=_address(sound.address, bar, number, add))


def _pointed(elements: tuple[Element, ...], bar: int, number: int, add: int) -> tuple[Element, ...]:
    pointed: list[Element] = []
    for element in elements:
        if isinstance(element, Tuplet):
            pointed.append(replace(element, elements=_pointed(element.elements, bar, number, add)))
        elif element.sound is None:
            pointed.append(element)
        else:
            pointed.append(replace(element, sound=_address(element.sound, bar, number, add)))
    return tuple(pointed)


def _over(bars: list[tuple[MusicBar, ChorusPart]], grid: Grid, faults: Faults) -> tuple[MusicBar, ...]:
    """Give each bar the progression's chords; a lick that says otherwise is told so."""
    over: list[MusicBar] = []
    told: set[str] = set()
    meter: Meter | None = None
    for bar, part in bars:
        theirs = grid.bars[(max(bar.number, 1) - 1) % len(grid.bars)]
        chords = theirs.chords
        if bar.number == 0:
            chords = carried((), theirs.chords[0].symbol, bar.span)
        for chord in bar.chords:
            other = next(c for c in reversed(chords) if c.onset <= chord.onset)
            rule = disagreement(chord.symbol, other.symbol)
            if rule == "harmony/chord-disagrees" and bar.number and part.lick not in told:
                told.add(part.lick)
                faults.add(
                    "harmony/chorus-chord",
                    f"“{part.lick}” is over {chord.symbol.symbol} in bar {bar.number} of the chorus, "
                    f"where “{grid.name}” has {other.symbol.symbol}",
                    part.span,
                    help="Play it in bars with its own chords, or vary it to fit",
                    address=Address(bar.number),
                )
        over.append(replace(bar, chords=chords, meter_shown=bar.meter != meter))
        meter = bar.meter
    return tuple(over)
