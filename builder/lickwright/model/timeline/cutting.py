"""Cutting a line: what of a voice lies between two places of a bar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from lickwright.model.address import Address
from lickwright.model.music import Element, Line, Sound, Tuplet, Value
from lickwright.model.timeline.grouping import SHORTEST


def widened(
    lines: Sequence[Line], start: Fraction, end: Fraction | None, offset: Fraction
) -> tuple[Fraction, Fraction | None]:
    """Return a span of time widened to where every voice can be cut.

    A tuplet of one voice begins and ends its notes where the plain values of the other cannot be
    parted: a third of a quarter is no rest and no tied note. The span goes outwards to the nearest
    place that is the edge of a value, or can be parted, in every voice.

    Args:
        lines: The voices of the bar.
        start: Where the span begins in it.
        end: Where it ends; None = with the bar.
        offset: Where in a whole bar the bar begins.
    """
    edges = {e for line in lines for v in line.values for e in (v.onset, v.onset + v.duration)}
    good = [e for e in edges if all(_can_part(line, e, offset) for line in lines)]
    if not all(_can_part(line, start, offset) for line in lines):
        start = max((e for e in good if e <= start), default=Fraction(0))
    if end is not None and not all(_can_part(line, end, offset) for line in lines):
        end = min((e for e in good if e >= end), default=None)
    return start, end


def _can_part(line: Line, place: Fraction, offset: Fraction) -> bool:
    for value, origin, scale in _printed(line.elements, -offset, Fraction(1)):
        if value.onset < place < value.onset + value.duration:
            return (place - origin) * scale % SHORTEST == 0
    return True


def _printed(
    elements: tuple[Element, ...], origin: Fraction, scale: Fraction
) -> Iterator[tuple[Value, Fraction, Fraction]]:
    """Every value, with where its tuplet (or bar) begins and how much longer it is printed."""
    for element in elements:
        if isinstance(element, Tuplet):
            inner = scale * Fraction(element.number, element.normal)
            yield from _printed(element.elements, element.onset, inner)
        else:
            yield element, origin, scale


def cut(line: Line, start: Fraction, end: Fraction) -> Line:
    """Return the line between two written places, moved so that ``start`` is 0.

    Values are clipped; a sound that began before ``start`` goes on as a tied value.
    ``Line.sounds`` keeps those that begin inside.
    """
    shift = _played_at(line.elements, start)
    elements = _clip(line.elements, start, end, shift)
    sounds = tuple(
        replace(sound, onset=sound.onset - start, time=sound.time - shift)
        for sound in line.sounds
        if start <= sound.onset < end
    )
    filled = min(line.filled, end) - start
    return Line(elements, sounds, max(filled, Fraction(0)))


def _played_at(elements: tuple[Element, ...], place: Fraction) -> Fraction:
    """Where a written place is played: exact at a value's edge, in proportion inside one."""
    for value in Line(elements, (), Fraction(0)).values:
        if value.onset <= place < value.onset + value.duration:
            share = (place - value.onset) / value.duration
            return value.time + (value.until - value.time) * share
    return place


def _clip(
    elements: tuple[Element, ...], start: Fraction, end: Fraction, shift: Fraction
) -> tuple[Element, ...]:
    kept: list[Element] = []
    for element in elements:
        low = max(element.onset, start)
        high = min(element.onset + element.duration, end)
        if low >= high:
            continue
        if isinstance(element, Tuplet):
            kept.append(
                replace(
                    element,
                    onset=low - start,
                    duration=high - low,
                    elements=_clip(element.elements, start, end, shift),
                )
            )
        else:
            kept.append(_clip_value(element, low, high, start, shift))
    return tuple(kept)


def _clip_value(value: Value, low: Fraction, high: Fraction, start: Fraction, shift: Fraction) -> Value:
    pace = (value.until - value.time) / value.duration
    return replace(
        value,
        onset=low - start,
        duration=high - low,
        time=value.time + (low - value.onset) * pace - shift,
        until=value.time + (high - value.onset) * pace - shift,
        tied=value.tied or (low > value.onset and value.sound is not None),
    )


def struck_first(line: Line, held: Sound | None) -> Line:
    """Return the line with its first value struck when it is tied to something cut away.

    The sound keeps its address, so links to it go on working.

    Args:
        line: A cut line.
        held: The sound the first value belongs to.
    """
    values = line.values
    if not values or not values[0].tied or held is None:
        return line
    first = values[0]
    sound = afresh(replace(held, onset=first.onset, time=first.time, grace=()))
    tail = _run_length(line, first.sound)
    elements = _struck(line.elements)
    return Line(elements, (replace(sound, duration=tail), *line.sounds), line.filled)


def afresh(sound: Sound) -> Sound:
    """Return a sound with every string struck: nothing leads to it any more."""
    tones = tuple(replace(tone, link=None, struck=True, tied=False) for tone in sound.tones)
    return replace(sound, tones=tones, joined=None)


def _run_length(line: Line, sound: Address | None) -> Fraction:
    length = Fraction(0)
    for value in line.values:
        if value.sound != sound:
            break
        length += value.duration
    return length


def _struck(elements: tuple[Element, ...]) -> tuple[Element, ...]:
    """The first value is struck, not tied."""
    first = elements[0]
    if isinstance(first, Tuplet):
        return (replace(first, elements=_struck(first.elements)), *elements[1:])
    return (replace(first, tied=False), *elements[1:])
