"""Every piece of the courses at hand, and of licks typed here, as music and in words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from heard import HeardPiece, differences
from listener import listen
from phrases import MisheardError

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key
from lickwright.words.pieces import in_words

if TYPE_CHECKING:
    from lickwright.model.music import Music, Piece

ROOT = Path(__file__).parents[2]
COURSES = {
    "every sign": ROOT / "tests" / "courses" / "every-sign",
    "low water": ROOT / "tests" / "courses" / "low-water",
    "demo": ROOT / "content",
    "guide": ROOT / "builder" / "lickwright" / "guide",
}


@dataclass(frozen=True)
class Said:
    """A bar in words that a test may change."""

    number: int
    heading: str
    voices: tuple[tuple[str, str], ...]


def said(music: Music) -> tuple[Said, ...]:
    """The bars of a piece in words."""
    return tuple(Said(bar.number, bar.heading, tuple(bar.voices)) for bar in in_words(music))


@cache
def pieces(course: str) -> tuple[Piece, ...]:
    """Every piece of a course: licks, excerpts, choruses, variations, scales."""
    read, _ = read_course(COURSES[course])
    assert read is not None
    return resolve(read)[0].pieces


@cache
def typed() -> tuple[Piece, ...]:
    """The pieces of ``more_pieces.md``; reading them must find nothing."""
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(80), Guitar(), Provenance("own"))
    text = (Path(__file__).parent / "more_pieces.md").read_text(encoding="utf-8")
    lesson, findings = read_lesson(Source("lessons/more.md", text), "more")
    assert [finding.message for finding in findings] == []
    book, faults = resolve(Course("More", "us", settings, (Unit("All", (lesson,)),)))
    assert [fault.message for fault in faults] == []
    return book.pieces


def unheard(bars: tuple[Said, ...], meant: HeardPiece) -> list[str]:
    """What a listener does not get as it is meant: fields that differ, or the words that told nothing."""
    try:
        return list(differences(listen(bars), meant))
    except MisheardError as missed:
        return [f"misheard: {missed}"]


def with_text(bars: tuple[Said, ...], index: int, voice: int | None, text: str) -> tuple[Said, ...]:
    """The bars with another heading (``voice`` None) or another line in one of them."""
    bar = bars[index]
    if voice is None:
        bar = replace(bar, heading=text)
    else:
        lines = list(bar.voices)
        lines[voice] = (lines[voice][0], text)
        bar = replace(bar, voices=tuple(lines))
    return (*bars[:index], bar, *bars[index + 1 :])
