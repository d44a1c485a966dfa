"""Excerpts: some bars or sounds of a lick or chorus, cut out of its music.

Conventions: bars and sounds keep the addresses they have in the lick. A tied note
at the cut is struck, as is a join's target; repeats go unless both ends lie inside.
A range of sounds takes the span of time in both voices, ``low`` the lower alone.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from lickwright.model.address import AddressRange
from lickwright.model.bar import Margin
from lickwright.model.blocks import Excerpt
from lickwright.model.music import ChordAt, Line, Music, MusicBar, Piece, Sound
from lickwright.model.timeline.cutting import afresh, cut, struck_first, widened
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.repeats import unfold
from lickwright.model.timeline.wording import missing_end, missing_part


def resolve_excerpt(block: Excerpt, piece: Piece, name: str, faults: Faults) -> Piece | None:
    """Return the excerpt as a piece of its own; None when the lick does not have what it shows."""
    music = piece.music
    show = block.show
    if show is not None:
        shown = excerpt_music(music, show)
        if shown is None:
            faults.add(
                "course/excerpt-address",
                f"“{piece.name}” has {missing_part(music, show)}",
                dict(block.places).get("show", block.span),
                address=missing_end(music, show),
            )
            return None
        if _endings_in_a_row(music, shown):
            faults.add(
                "course/excerpt-endings",
                f"{show} of “{piece.name}” takes in more than one ending, played in a row here",
                dict(block.places).get("show", block.span),
                help="Show the bars up to one ending, or the whole repeat",
            )
        music = shown
    return replace(
        piece,
        name=name,
        kind="excerpt",
        music=music,
        of=piece.name,
        stets=(),
        tags=(),
        ladder=(),
        changed=(),
        sections=(),
        span=block.span,
    )


def _endings_in_a_row(music: Music, shown: Music) -> bool:
    """True when endings stand in the part that has lost its repeat."""
    numbers = {bar.number for bar in shown.bars}
    begun = sum(bool(bar.endings) for bar in music.bars if bar.number in numbers)
    return begun > 1 and not any(bar.endings for bar in shown.bars)


def has_part(music: Music, show: AddressRange) -> bool:
    """Whether both ends of a range are there, the first no later than the last."""
    first, last = show.first, show.last
    numbers = [bar.number for bar in music.bars if first.bar <= bar.number <= last.bar]
    if not numbers or numbers[0] != first.bar or numbers[-1] != last.bar:
        return False
    return show.whole_bars or (music.sound(first) is not None and music.sound(last) is not None)


def excerpt_music(music: Music, show: AddressRange) -> Music | None:
    """Return the part of the music in the range, or None when an end of it does not exist."""
    first, last = show.first, show.last
    if not has_part(music, show):
        return None
    bars = [bar for bar in music.bars if first.bar <= bar.number <= last.bar]
    start, end = Fraction(0), bars[-1].length
    if not show.whole_bars:
        opening, closing = music.sound(first), music.sound(last)
        if opening is None or closing is None:
            return None
        start = opening.onset
        reach = closing.onset + closing.duration
        last_bar = bars[-1]
        bars, end = _reach(music, bars, reach)
        if bars[-1] is not last_bar and end == 0:
            bars, end = bars[:-1], bars[-2].length
        start, end = _widened(bars, start, end, lower=first.lower)
    before = _held_before(music, bars[0].number)
    cuts = [
        _cut_bar(
            bar,
            start if i == 0 else Fraction(0),
            end if i == len(bars) - 1 else bar.length,
            before if i == 0 else (None, None),
        )
        for i, bar in enumerate(bars)
    ]
    if first.lower and not show.whole_bars:
        cuts = [replace(bar, upper=bar.lower or bar.upper, lower=None) for bar in cuts]
    return _with_order(music, _repeats_inside(cuts))


def _reach(music: Music, bars: list[MusicBar], reach: Fraction) -> tuple[list[MusicBar], Fraction]:
    """The last sound may be held over bar lines: take in the bars it lasts through."""
    bars = list(bars)
    index = next(i for i, bar in enumerate(music.bars) if bar.number == bars[-1].number)
    while reach > bars[-1].length and index + 1 < len(music.bars):
        reach -= bars[-1].length
        index += 1
        bars.append(music.bars[index])
    return bars, min(reach, bars[-1].length)


def _widened(
    bars: list[MusicBar], start: Fraction, end: Fraction, *, lower: bool
) -> tuple[Fraction, Fraction]:
    """Both ends go outwards to where both voices can be cut (the lower alone is cut at its own sounds)."""
    if lower:
        return start, end
    start, _ = widened(bars[0].lines, start, None, bars[0].offset)
    _, until = widened(bars[-1].lines, Fraction(0), end, bars[-1].offset)
    return start, bars[-1].length if until is None else until


def _held_before(music: Music, number: int) -> tuple[Sound | None, Sound | None]:
    """The last sound of each voice before a bar."""
    held: list[Sound | None] = [None, None]
    for bar in music.bars:
        if bar.number >= number:
            break
        for voice, line in enumerate((bar.upper, bar.lower)):
            if line is None:
                held[voice] = None
            elif line.sounds:
                held[voice] = line.sounds[-1]
    return held[0], held[1]


def _cut_bar(
    bar: MusicBar, start: Fraction, end: Fraction, before: tuple[Sound | None, Sound | None]
) -> MusicBar:
    if start == 0 and end == bar.length and before == (None, None):
        return bar
    upper = _cut_line(bar.upper, start, end, before[0])
    lower = None if bar.lower is None else _cut_line(bar.lower, start, end, before[1])
    chords = []
    for chord, following in zip(bar.chords, (*bar.chords[1:], None), strict=True):
        until = bar.length if following is None else following.onset
        if chord.onset < end and until > start:
            chords.append(replace(chord, onset=max(chord.onset - start, Fraction(0))))
    return replace(
        bar,
        upper=upper,
        lower=lower,
        length=end - start,
        offset=bar.offset + start,
        chords=tuple(chords),
    )


def _cut_line(line: Line, start: Fraction, end: Fraction, before: Sound | None) -> Line:
    held = before
    for sound in line.sounds:
        if sound.onset < start:
            held = sound
    shown = struck_first(cut(line, start, end), held)
    if shown.sounds and shown.sounds[0].onset == 0:
        shown = replace(shown, sounds=(afresh(shown.sounds[0]), *shown.sounds[1:]))
    return shown


def _repeats_inside(bars: list[MusicBar]) -> list[MusicBar]:
    """Drop repeat signs and endings unless the whole repeat lies inside."""
    kept = list(bars)
    opens = [i for i, bar in enumerate(bars) if bar.opens]
    whole = any(bars[i].closes for i in range(opens[0], len(bars))) if opens else False
    for i, bar in enumerate(kept):
        inside = whole and i >= opens[0]
        if not inside:
            kept[i] = replace(bar, opens=False, closes=False, endings=(), ending_closed=False)
    shown = [
        replace(bar, meter_shown=i == 0 or bar.meter_shown, chords=_printed(bar, first=i == 0))
        for i, bar in enumerate(kept)
    ]
    numbers = [n for bar in shown for n in bar.endings]
    if numbers and sorted(numbers) != list(range(1, len(numbers) + 1)):
        return [replace(bar, opens=False, closes=False, endings=(), ending_closed=False) for bar in shown]
    return shown


def _printed(bar: MusicBar, *, first: bool) -> tuple[ChordAt, ...]:
    """The chord in force is printed where an excerpt begins (a pickup stands over that of bar 1)."""
    if not first or not bar.chords or bar.number == 0:
        return bar.chords
    return (replace(bar.chords[0], carried=False), *bar.chords[1:])


def _with_order(music: Music, bars: list[MusicBar]) -> Music:
    margins = [
        Margin(opens=b.opens, closes=b.closes, endings=b.endings, times=b.times if b.closes else None)
        for b in bars
    ]
    order = unfold(margins, pickup=False).order
    first, last = bars[0].number, bars[-1].number
    positions = [p for p in music.positions if p[0] <= last]
    before = [fret for number, fret in positions if number <= first]
    kept = [(first, before[-1])] if before else []
    kept += [p for p in positions if p[0] > first]
    return replace(music, bars=tuple(bars), order=order, positions=tuple(kept))
