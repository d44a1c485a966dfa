"""The bytes of a Standard MIDI File (MIDI 1.0 Detailed Specification, Standard MIDI Files 1.0).

Written out here, for it is less than what a library would bring along; the tests have others read it back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

TICKS = 960
"""Of a quarter."""
_COPYRIGHT, _NAME = 0x02, 0x03


@dataclass(frozen=True, slots=True, order=True)
class Message:
    """A message at a tick; of one tick in order of ``rank``, then as made.

    Attributes:
        place: Counts up, so that messages of one rank keep their order.
    """

    tick: int
    rank: int
    place: int
    data: bytes


def meta(kind: int, data: bytes) -> bytes:
    """Return a meta event."""
    return bytes((0xFF, kind)) + _variable(len(data)) + data


def title(text: str) -> bytes:
    """Return the name of a track, of the first: of the piece; UTF-8, as programs read it today."""
    return meta(_NAME, text.encode())


def copyright_notice(text: str) -> bytes:
    """Return the notice of rights."""
    return meta(_COPYRIGHT, text.encode())


def tempo(quarters: float) -> bytes:
    """Return a tempo; ``quarters`` a minute."""
    return meta(0x51, min(round(60_000_000 / quarters), 0xFFFFFF).to_bytes(3, "big"))


def meter(count: int, unit: int, clocks: int) -> bytes:
    """Return a time signature; ``clocks``: MIDI clocks (24 a quarter) of a beat."""
    return meta(0x58, bytes((count, unit.bit_length() - 1, clocks, 8)))


def key(sharps: int, *, minor: bool) -> bytes:
    """Return a key signature; flats are negative."""
    return meta(0x59, bytes((sharps & 0xFF, minor)))


def note_on(channel: int, pitch: int, velocity: int) -> bytes:
    """Return the start of a note."""
    return bytes((0x90 | channel, pitch, velocity))


def note_off(channel: int, pitch: int) -> bytes:
    """Return the end of a note."""
    return bytes((0x80 | channel, pitch, 64))


def control(channel: int, number: int, value: int) -> bytes:
    """Return a controller."""
    return bytes((0xB0 | channel, number, value))


def program(channel: int, number: int) -> bytes:
    """Return a program, from 0."""
    return bytes((0xC0 | channel, number))


def wheel(channel: int, value: int) -> bytes:
    """Return the place of the pitch wheel, -8192 to 8191."""
    place = value + 8192
    return bytes((0xE0 | channel, place & 0x7F, place >> 7))


def bend_range(channel: int, semitones: int) -> tuple[bytes, ...]:
    """Return the messages that set how far the wheel reaches: registered parameter 0."""
    data = ((101, 0), (100, 0), (6, semitones), (38, 0), (101, 127), (100, 127))
    return tuple(control(channel, number, value) for number, value in data)


def track(messages: Iterable[Message], length: int) -> bytes:
    """Return a track chunk.

    Args:
        messages: In any order.
        length: Tick at which the track ends, at the earliest.
    """
    body = bytearray()
    at = 0
    for message in sorted(messages):
        body += _variable(message.tick - at) + message.data
        at = message.tick
    body += _variable(max(length - at, 0)) + meta(0x2F, b"")
    return b"MTrk" + len(body).to_bytes(4, "big") + bytes(body)


def file(tracks: Iterable[bytes]) -> bytes:
    """Return a file of format 1."""
    chunks = tuple(tracks)
    head = (1).to_bytes(2, "big") + len(chunks).to_bytes(2, "big") + TICKS.to_bytes(2, "big")
    return b"MThd" + (6).to_bytes(4, "big") + head + b"".join(chunks)


def _variable(number: int) -> bytes:
    """A number in sevens of bits, the last without the top bit."""
    parts = [number & 0x7F]
    while number := number >> 7:
        parts.append(number & 0x7F | 0x80)
    return bytes(reversed(parts))
