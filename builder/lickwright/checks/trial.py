"""Another fret in the place of a note, and the rules run again: what becomes of the findings.

Nothing is guessed: a change is judged by the same rules that found the fault.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from lickwright.checks.subject import Subject
from lickwright.model.address import Address, AddressRange
from lickwright.model.music import Line, MusicBar, Piece, Sound, Tone
from lickwright.model.timeline.excerpt import excerpt_music

Place = tuple[str, str]
"""Of a finding: rule and address."""
Places = frozenset[Place]
"""What is found where."""


def cut_around(piece: Piece, number: int, bars: int) -> Piece:
    """Return the piece from so many bars before a bar to so many behind it, cut as an excerpt is."""
    numbers = [bar.number for bar in piece.music.bars]
    at = numbers.index(number)
    first, last = max(0, at - bars), min(len(numbers) - 1, at + bars)
    music = excerpt_music(piece.music, AddressRange(Address(numbers[first]), Address(numbers[last])))
    if music is None or (first, last) == (0, len(numbers) - 1):
        return piece
    return replace(piece, music=music, closed=piece.closed and last == len(numbers) - 1)


def put_tone(piece: Piece, address: Address, index: int, tone: Tone) -> Piece:
    """Return the piece with another tone in the place of one; nothing else is moved."""

    def put(sound: Sound) -> Sound:
        return replace(sound, tones=(*sound.tones[:index], tone, *sound.tones[index + 1 :]))

    return change_sound(piece, address, put)


def change_sound(piece: Piece, address: Address, change: Callable[[Sound], Sound]) -> Piece:
    """Return the piece with the sound at an address changed."""
    music = piece.music
    bars = tuple(_in_bar(bar, address, change) if bar.number == address.bar else bar for bar in music.bars)
    return replace(piece, music=replace(music, bars=bars))


def _in_bar(bar: MusicBar, address: Address, change: Callable[[Sound], Sound]) -> MusicBar:
    if address.lower:
        return bar if bar.lower is None else replace(bar, lower=_in_line(bar.lower, address, change))
    return replace(bar, upper=_in_line(bar.upper, address, change))


def _in_line(line: Line, address: Address, change: Callable[[Sound], Sound]) -> Line:
    return replace(line, sounds=tuple(change(s) if s.address == address else s for s in line.sounds))


def try_tone(subject: Subject, address: Address, index: int, tone: Tone) -> tuple[Subject, Places]:
    """Return a piece as it would be with another tone, and what the rules then find."""
    tried = Subject(put_tone(subject.piece, address, index, tone), subject.limits, subject.base)
    return tried, list_places(tried)


def list_places(subject: Subject) -> Places:
    """Return rule and address of each finding of a piece."""
    return frozenset((finding.rule, finding.address) for finding in subject.found)
