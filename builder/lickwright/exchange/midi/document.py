"""A piece of music as a Standard MIDI File.

Repeats are unfolded and swing is played, as the student hears it. The first track has tempo, meter and key,
then comes one for each voice; each string has a channel of its own, so that a bend moves no other.
"""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from lickwright.exchange.element import printable
from lickwright.exchange.midi import smf
from lickwright.exchange.midi.smf import Message
from lickwright.exchange.midi.strings import Note, notes
from lickwright.model.timeline.played import play_bars
from lickwright.model.timeline.tempi import quarters
from lickwright.performance.perform import perform

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from lickwright.model.music import Music, MusicBar
    from lickwright.model.orders import ExchangeOrder

RANGE = 24
"""Half steps to which the wheel reaches, up and down: slides go along the neck."""
_PROGRAMS = {"electric": 27, "acoustic": 25}
"""General MIDI, from 0: clean electric, steel-string acoustic."""
_EXPRESSION = 11
_VOICES = {False: "Guitar", True: "Guitar, lower voice"}
_OFF, _SET, _WHEEL, _ON = range(4)
"""Order of messages at one tick: what ends goes first, the wheel stands before its note begins."""


def write_midi(order: ExchangeOrder) -> bytes:
    """Return the file."""
    music = order.music
    bpm = quarters(order.tempo, music.bars[0].meter)
    performance = perform(music, bpm)
    second = float(bpm) / 60 * smf.TICKS
    end = round((performance.length + performance.tail) * second)
    played = notes(performance)
    strings = sorted({note.string for note in played})
    tracks = [smf.track(_conductor(order, bpm), end)]
    for number, lower in enumerate(sorted({note.lower for note in played} or {False})):
        voice = [note for note in played if note.lower is lower]
        opening = _opening(music, strings if not number else [], _VOICES[lower])
        tracks.append(smf.track([*opening, *_voice(voice, second)], end))
    return smf.file(tracks)


def _conductor(order: ExchangeOrder, bpm: Fraction) -> Iterator[Message]:
    music, credits_ = order.music, order.credits
    place = count()
    yield Message(0, _SET, next(place), smf.title(printable(credits_.title)))
    notice = ", ".join(part for part in (credits_.author, credits_.rights) if part)
    if notice:
        yield Message(0, _SET, next(place), smf.copyright_notice(printable(notice)))
    yield Message(0, _SET, next(place), smf.tempo(float(bpm)))
    yield Message(0, _SET, next(place), smf.key(music.key.signature, minor=music.key.is_minor_like))
    before: tuple[int, int] | None = None
    for played in play_bars(music):
        meter = _meter(played.bar, played.end - played.start)
        if meter != before:
            clocks = int(24 * played.bar.meter.beat)
            yield Message(round(played.start * smf.TICKS), _SET, next(place), smf.meter(*meter, clocks))
        before = meter


def _meter(bar: MusicBar, length: Fraction) -> tuple[int, int]:
    """The meter of a bar; a short one has its own, where its length as played is one."""
    if bar.length != bar.meter.length:
        for unit in (bar.meter.unit, 8, 16, 32):
            number = length * unit / 4
            if number.denominator == 1:
                return int(number), unit
    return bar.meter.count, bar.meter.unit


def _opening(music: Music, strings: Iterable[int], name: str) -> Iterator[Message]:
    place = count()
    yield Message(0, _SET, next(place), smf.title(name))
    for string in strings:
        channel = channel_of(string)
        yield Message(0, _SET, next(place), smf.program(channel, _PROGRAMS[music.guitar.sound]))
        for data in smf.bend_range(channel, RANGE):
            yield Message(0, _SET, next(place), data)


def channel_of(string: int) -> int:
    """Return the channel of a string, from 0; there are at most eight, the drums' is the tenth."""
    return string - 1


def _voice(voice: list[Note], second: float) -> Iterator[Message]:
    place = count()
    for note in voice:
        channel = channel_of(note.string)
        start = round(note.start * second)
        end = max(round(note.end * second), start + 1)
        for at, bent in note.bends:
            value = max(-8192, min(round(bent / RANGE * 8192), 8191))
            yield Message(round(at * second), _WHEEL, next(place), smf.wheel(channel, value))
        if note.swell:
            for k in range(17):
                tick = start + round(note.swell * k / 16 * second)
                yield Message(tick, _SET, next(place), smf.control(channel, _EXPRESSION, min(8 * k, 127)))
        velocity = max(1, min(round(127 * note.velocity), 127))
        yield Message(start, _ON, next(place), smf.note_on(channel, note.pitch, velocity))
        yield Message(end, _OFF, next(place), smf.note_off(channel, note.pitch))
