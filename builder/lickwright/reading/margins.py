"""The margin of a bar or a cell of a progression: ending, meter, chords, repeat signs."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.model.bar import Margin, MarginChord
from lickwright.reading.chords import read_margin_chords
from lickwright.text import Span
from lickwright.theory.meter import Meter, parse_meter

if TYPE_CHECKING:
    from lickwright.reading.collector import Collector
    from lickwright.reading.lines import Line

_ENDING = re.compile(r"\s*([0-9]{1,2})\.(?:\s*[-–]\s*([0-9]{1,2})\.?)?(?=\s|\Z)")
_METER = re.compile(r"\s*([0-9]+/[0-9]+)(?=\s|\Z)")
_FEWEST_TIMES, _MOST_TIMES = 2, 8


def read_margin(
    line: Line,
    found: Collector,
    *,
    opens: bool = False,
    closes: bool = False,
    times: Line | None = None,
) -> Margin:
    """Read what stands before the bar line, repeat signs taken off.

    Args:
        line: The margin's text.
        found: Where faults go.
        opens: ``|:`` was there.
        closes: ``:|`` was there.
        times: The number after ``x``.
    """
    endings, line = _read_ending(line, found)
    meter, line = _read_meter(line, found)
    if meter is not None and not endings:
        endings, line = _read_ending(line, found)
    count = _read_times(times, found) if times is not None else None
    chords = read_margin_chords(line, found) if not line.blank else ()
    span = Span(found.source, line.start, line.end)
    return Margin(chords, meter, opens, endings, closes, count, span)


def _read_ending(line: Line, found: Collector) -> tuple[tuple[int, ...], Line]:
    m = _ENDING.match(line.text)
    if not m:
        return (), line
    first, last = int(m[1]), int(m[2] or m[1])
    if not 1 <= first <= last <= _MOST_TIMES:
        span = Span(found.source, line.start + m.start(1), line.start + m.end())
        hint = "as they are printed: 1. and 2., or 1.-2. for two times"
        found.add("syntax/repeat", f"an ending is numbered from 1 to {_MOST_TIMES}, rising", span, hint=hint)
        return (), line.part(m.end())
    return tuple(range(first, last + 1)), line.part(m.end())


def _read_meter(line: Line, found: Collector) -> tuple[Meter | None, Line]:
    m = _METER.match(line.text)
    if not m:
        return None, line
    meter = parse_meter(m[1])
    if meter is None:
        span = Span(found.source, line.start + m.start(1), line.start + m.end(1))
        found.add(
            "syntax/margin", f"{m[1][:12]} is no meter", span, hint="a meter is 1 to 16 over 2, 4, 8 or 16"
        )
    return meter, line.part(m.end())


def _read_times(times: Line, found: Collector) -> int | None:
    count = int(times.text) if len(times.text) < 4 else 0
    if _FEWEST_TIMES <= count <= _MOST_TIMES:
        return count
    span = Span(found.source, times.start, times.end)
    message = f"a repeat is played {_FEWEST_TIMES} to {_MOST_TIMES} times, not {times.text[:8]}"
    found.add("syntax/repeat", message, span)
    return None


def check_beats(chords: tuple[MarginChord, ...], meter: Meter, found: Collector) -> None:
    """Report chords that do not share out the beats of a bar.

    Two or more share it by equal whole beats, else each after the first needs its ``@``.
    """
    if not chords or (len(chords) == 1 and chords[0].beat is None):
        return
    placed = [chord.beat is not None for chord in chords]
    if not any(placed):
        if meter.beats % len(chords):
            found.add(
                "rhythm/chord-beat",
                f"{len(chords)} chords do not share {_say_beats(meter)} of {meter} by equal whole beats",
                chords[1].span,
                hint="say where each after the first begins, as in A D@3",
            )
        return
    last = Fraction(0)
    for number, chord in enumerate(chords):
        if chord.beat is None:
            if number:
                hint = f"write {chord.symbol}@ and its beat"
                found.add("rhythm/chord-beat", f"{chord.symbol} needs its beat too", chord.span, hint=hint)
            continue
        at = Fraction(chord.beat - 1) + (Fraction(1, 2) if chord.half else 0)
        if not 1 <= chord.beat <= meter.beats:
            message = f"there is no beat {chord.beat} in {meter}, which has {meter.beats}"
            found.add("rhythm/chord-beat", message, chord.span)
        elif number and at <= last:
            message = f"{chord.symbol} on beat {chord.beat} stands after a chord that begins no earlier"
            found.add("rhythm/chord-beat", message, chord.span)
        last = max(last, at)


def check_pickup_beats(
    chords: tuple[MarginChord, ...], meter: Meter, pickup: Fraction, found: Collector
) -> None:
    """Report chords of a pickup that fall before it, or on its first.

    Args:
        chords: Of its margin.
        meter: Of the lick.
        pickup: Its length in quarters.
        found: Told of them.
    """
    begins = (meter.length - pickup) / meter.beat
    for number, chord in enumerate(chords):
        at = Fraction(chord.beat or 1) - 1 + (Fraction(1, 2) if chord.half else 0)
        if (number and at <= begins) or (chord.beat is not None and at < begins):
            first = 1 + int(begins)
            where = f"in the middle of beat {first}" if begins % 1 else f"on beat {first}"
            message = f"{chord.symbol} has no place in the pickup, which begins {where}"
            hint = f"write {chord.symbol}@ and a beat after that, or leave the chord to bar 1"
            found.add("rhythm/chord-beat", message, chord.span, hint=hint)


def _say_beats(meter: Meter) -> str:
    return "the one beat" if meter.beats == 1 else f"the {meter.beats} beats"
