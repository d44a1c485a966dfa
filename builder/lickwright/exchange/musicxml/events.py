"""What stands over and under the notes of a bar: chord symbols, tempo, words, brackets."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING

from lickwright.exchange.element import node
from lickwright.exchange.links import has_sign
from lickwright.exchange.musicxml.kinds import harmony
from lickwright.exchange.musicxml.signs import STAFF, TAB

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lxml import etree

    from lickwright.exchange.links import Bracket, Sheet
    from lickwright.model.fields import Tempo
    from lickwright.model.music import MusicBar, Sound

_BEATS = {
    Fraction(4): "whole", Fraction(2): "half", Fraction(1): "quarter", Fraction(1, 2): "eighth",
    Fraction(1, 4): "16th",
}  # fmt: skip
_NUMBERS = {"ring": 1, "mute": 3, "position": 5, "rit": 7}
"""Numbers of brackets; the lower voice's is one more."""


@dataclass(frozen=True, slots=True)
class Event:
    """Something at a place in a bar.

    Attributes:
        onset: Quarters into the bar.
        element: From the divisions between where it is written and where it stands to the element.
    """

    onset: Fraction
    element: Callable[[int], etree._Element]


def events(sheet: Sheet, tempo: Tempo) -> dict[int, list[Event]]:
    """Return the events of every bar by its index, in order of onset."""
    found: dict[int, list[Event]] = defaultdict(list)
    found[0] += _opening(sheet, tempo)
    for index, bar in enumerate(sheet.music.bars):
        found[index] += _of_bar(bar)
    for entry in sheet.cut.entries:
        found[entry.bar] += _of_sound(entry.sound)
    for bracket in sheet.brackets:
        start, end = _bracket(bracket)
        found[bracket.first.bar].append(start)
        found[bracket.last.pieces[-1][0]].append(end)
    return {index: sorted(here, key=lambda event: event.onset) for index, here in found.items()}


def _opening(sheet: Sheet, tempo: Tempo) -> Iterator[Event]:
    beat = tempo.beat or Fraction(1)
    plain = _BEATS.get(beat) or _BEATS.get(beat * 2 / 3, "quarter")
    dot = None if beat in _BEATS else node("beat-unit-dot")
    metronome = node("metronome", node("beat-unit", plain), dot, node("per-minute", tempo.bpm))
    swing = node("swing", node("first", 2), node("second", 1), node("swing-type", "eighth"))
    sound = node("sound", swing if sheet.music.swung else None, tempo=f"{float(tempo.bpm * beat):g}")
    words = [node("words", "Swing")] if sheet.music.swung else []
    yield Event(Fraction(0), lambda offset: _direction([*words, metronome], offset, sound=sound))


def _of_bar(bar: MusicBar) -> Iterator[Event]:
    if bar.mark:
        yield _said(Fraction(0), bar.mark)
    for chord in bar.chords:
        if not chord.carried:
            yield Event(chord.onset, partial(harmony, chord.symbol))
            if chord.stop:
                yield _said(chord.onset, "stop")
    if bar.closes and bar.times > 2:
        yield _said(bar.length, f"×{bar.times}")


def _of_sound(sound: Sound) -> Iterator[Event]:
    if has_sign(sound, "swell"):
        yield _said(sound.onset, "swell")
    if has_sign(sound, "scrape"):
        yield _said(sound.onset, "pick scrape")


def _said(onset: Fraction, words: str) -> Event:
    return Event(onset, lambda offset: _direction([node("words", words)], offset))


def _bracket(bracket: Bracket) -> tuple[Event, Event]:
    number = _NUMBERS[bracket.kind] + bracket.lower
    staff = STAFF if bracket.kind in ("position", "rit") else TAB
    _, piece = bracket.last.pieces[-1]

    def line(type_: str) -> etree._Element:
        if bracket.kind == "position":
            end = "none" if type_ == "start" else "down"
            return node("bracket", line_end=end, number=number, type_=type_)
        return node("dashes", number=number, type_=type_)

    def start(offset: int) -> etree._Element:
        return _direction([node("words", bracket.words), line("start")], offset, staff=staff)

    def stop(offset: int) -> etree._Element:
        return _direction([line("stop")], offset, staff=staff)

    return Event(bracket.first.sound.onset, start), Event(piece.onset + piece.length, stop)


def _direction(
    types: list[etree._Element], offset: int, *, staff: int = STAFF, sound: etree._Element | None = None
) -> etree._Element:
    return node(
        "direction",
        *(node("direction-type", type_) for type_ in types),
        node("offset", offset) if offset else None,
        node("staff", staff),
        sound,
        placement="above",
    )
