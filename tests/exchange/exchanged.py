"""The pieces of three courses, and what the model says of them: what files are held against."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path

from lickwright.exchange.exchange import exchange
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music, Piece, Sound, Tone
from lickwright.model.orders import Credits, ExchangeOrder, Format
from lickwright.model.strike import Dead, Harmonic, Late
from lickwright.model.timeline import resolve
from lickwright.model.timeline.tempi import counted
from lickwright.reading.course import read_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

ROOT = Path(__file__).parents[2]
SETTINGS = Settings(parse_key("C major"), "straight", Tempo(120), Guitar(), Provenance("own"))
COURSES = ("content", "tests/courses/low-water", "tests/courses/every-sign")


@cache
def pieces() -> dict[str, Piece]:
    """Every piece of the courses: licks, excerpts, variations, choruses, scales."""
    found: dict[str, Piece] = {}
    for course in COURSES:
        read_, _ = read_course(ROOT / course)
        assert read_ is not None
        book, _ = resolve(read_)
        found |= {f"{course}: {piece.name}": piece for piece in book.pieces}
    assert len(found) > 150
    return found


def read(text: str, settings: Settings | None = None) -> Piece:
    """Read a lick block's inside."""
    lesson, faults = read_lesson(Source("lessons/one.md", f"# One\n\n```lick test\n{text}```\n"), "one")
    assert not [fault for fault in faults if fault.severity.value == "error"], faults
    book, found = resolve(Course("Test", "us", settings or SETTINGS, (Unit("Unit", (lesson,)),)))
    assert not [fault for fault in found if fault.severity.value == "error"], found
    return book.pieces[0]


def order(piece: Piece, format_: Format, credits_: Credits | None = None) -> ExchangeOrder:
    """What a page orders of a piece."""
    tempo = counted(piece.tempo, piece.music.bars[-1].meter)
    return ExchangeOrder(piece.music, format_, tempo, credits_ or Credits(piece.title), piece.name)


def file(piece: Piece, format_: Format, credits_: Credits | None = None) -> bytes:
    """The file of a piece."""
    return exchange(order(piece, format_, credits_)).content


@dataclass(frozen=True, order=True)
class Sounding:
    """A tone from where it begins to where its string is struck, joined or stopped anew; written quarters."""

    onset: Fraction
    string: int
    fret: int
    pitch: int
    length: Fraction


def starts(music: Music) -> dict[int, Fraction]:
    """Where each written bar begins, by its index."""
    found, at = {}, Fraction(0)
    for index, bar in enumerate(music.bars):
        found[index] = at
        at += bar.length
    return found


def voices(music: Music) -> Iterator[list[tuple[Fraction, Fraction, Sound]]]:
    """Onset, written length and sound of each voice in written order."""
    begin = starts(music)
    for lower in (False, True):
        lines = [(begin[k], bar.lower if lower else bar.upper) for k, bar in enumerate(music.bars)]
        lengths: dict[object, Fraction] = {}
        for _, line in lines:
            for value in line.values if line else ():
                lengths[value.sound] = lengths.get(value.sound, Fraction(0)) + value.duration
        yield [
            (at + sound.onset, lengths[sound.address], sound)
            for at, line in lines
            if line
            for sound in line.sounds
        ]


def fret(tone: Tone) -> int:
    """The fret a tab shows: a natural harmonic's where it is touched, a dead note's 0."""
    if isinstance(tone.head, Harmonic) and not tone.head.fret:
        return round(tone.head.touch)
    return tone.fret or 0


def written_pitch(music: Music, tone: Tone) -> int:
    """The pitch of the fret; a harmonic's as it sounds, a dead note's the open string's."""
    if isinstance(tone.head, Harmonic):
        return int(tone.path[0])
    return music.guitar.midi(tone.string, 0 if isinstance(tone.head, Dead) else tone.fret or 0)


def soundings(music: Music) -> list[Sounding]:
    """Every tone with its length: through what leaves its string alone, bends it further or lets it down."""
    found: list[Sounding] = []
    for voice in voices(music):
        last: dict[int, int] = {}
        ends: dict[int, Fraction] = {}
        for number, (onset, _, sound) in enumerate(voice):
            for tone in sound.tones:
                through = voice[number : number + 1 + tone.rings_through]
                end = through[-1][0] + through[-1][1]
                goes_on = tone.tied or isinstance(tone.head, Late)
                if goes_on and ends.get(tone.string) == onset:
                    before = found[last[tone.string]]
                    found[last[tone.string]] = replace(before, length=end - before.onset)
                else:
                    last[tone.string] = len(found)
                    pitch = written_pitch(music, tone)
                    found.append(Sounding(onset, tone.string, fret(tone), pitch, end - onset))
                ends[tone.string] = end
    return sorted(found)


def graces(music: Music) -> list[tuple[int, int]]:
    """String and fret of every grace note."""
    return sorted(
        (tone.string, fret(tone))
        for voice in voices(music)
        for _, _, sound in voice
        for grace in sound.grace
        for tone in grace.tones
    )
