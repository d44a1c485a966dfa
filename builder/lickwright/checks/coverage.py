"""What a course covers, lesson by lesson: techniques, keys, positions, tempi; and how hard it grows.

Conventions: lessons in the order of study; drafts, excerpts and choruses do not count, a variation is a
lick of its own. A tempo is counted in beats of the lick's meter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from lickwright.analysis.difficulty import Difficulty, measure
from lickwright.analysis.techniques import list_techniques
from lickwright.checks.lessons import list_prose, list_published
from lickwright.checks.subject import Subject
from lickwright.model.course import Course
from lickwright.model.music import Piece
from lickwright.model.timeline import Book
from lickwright.model.timeline.tempi import quarters
from lickwright.terms.techniques import NAMES, list_spoken

Kind = Literal["technique", "key", "position", "tempo"]
KINDS: tuple[Kind, ...] = ("technique", "key", "position", "tempo")
BAND = 20
"""Beats a minute that share a row."""


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the matrix.

    Attributes:
        kind: What is counted.
        name: ``palm mute``, ``A major``, ``position 5``, ``80 to 99``.
        licks: How many licks of each lesson have it.
        spoken: Index of the first lesson whose words or tags speak of a technique; None for never,
            and for what is no technique.
    """

    kind: Kind
    name: str
    licks: tuple[int, ...]
    spoken: int | None = None

    @property
    def total(self) -> int:
        """Licks in all."""
        return sum(self.licks)

    @property
    def first(self) -> int:
        """Index of the first lesson that has it."""
        return next(number for number, count in enumerate(self.licks) if count)

    @property
    def lessons(self) -> int:
        """How many lessons have it."""
        return sum(count > 0 for count in self.licks)


@dataclass(frozen=True, slots=True)
class Step:
    """The hardest lick of a lesson."""

    lick: str
    difficulty: Difficulty


@dataclass(frozen=True, slots=True)
class Coverage:
    """What a course covers.

    Attributes:
        lessons: Titles in the order of study: the columns.
        rows: By kind; techniques as the table of terms lists them, keys as they come, positions and
            tempi rising.
        curve: The hardest lick of each lesson; None where a lesson has none.
    """

    lessons: tuple[str, ...]
    rows: tuple[Row, ...]
    curve: tuple[Step | None, ...]

    def of(self, kind: Kind) -> tuple[Row, ...]:
        """The rows of one kind."""
        return tuple(row for row in self.rows if row.kind == kind)


def cover(course: Course, book: Book, subjects: Mapping[str, Subject] | None = None) -> Coverage:
    """Return what a course covers.

    Args:
        course: As read.
        book: The same, resolved.
        subjects: What a proof has worked out already, by the name of the lick.
    """
    known = subjects or {}
    count = len(course.lessons)
    counts: dict[tuple[Kind, str], list[int]] = {}
    curve: list[Step | None] = [None] * count
    for lesson, piece in list_published(course, book):
        subject = known.get(piece.name)
        techniques = list_techniques(piece) if subject is None else subject.techniques
        difficulty = measure(piece, techniques) if subject is None else subject.difficulty
        for entry in (*(("technique", name) for name in techniques), *_list_entries(piece)):
            counts.setdefault(entry, [0] * count)[lesson] += 1
        best = curve[lesson]
        if best is None or difficulty.score > best.difficulty.score:
            curve[lesson] = Step(piece.name, difficulty)
    spoken = find_spoken(course)
    rows = [
        Row(kind, name, tuple(licks), spoken.get(name) if kind == "technique" else None)
        for (kind, name), licks in counts.items()
    ]
    rows.sort(key=_order)
    return Coverage(tuple(lesson.title for lesson in course.lessons), tuple(rows), tuple(curve))


def find_spoken(course: Course, *, loose: bool = True) -> Mapping[str, int]:
    """Return the index of the first lesson whose words, or tags of its licks, speak of each technique.

    Args:
        course: As read.
        loose: Whether words count that mean other things as well.
    """
    spoken: dict[str, int] = {}
    for number, lesson in enumerate(course.lessons):
        tags = (tag for placed in lesson.blocks for tag in getattr(placed.block, "tags", ()))
        for name in list_spoken("\n".join((list_prose(lesson, code=True), *tags)), loose=loose):
            spoken.setdefault(name, number)
    return spoken


def _list_entries(piece: Piece) -> Iterator[tuple[Kind, str]]:
    music = piece.music
    yield "key", str(music.key)
    for position in sorted(_positions(piece)):
        yield "position", f"position {position}" if position else "open position"
    if music.bars:
        meter = music.bars[0].meter
        band = int(quarters(piece.tempo, meter) / meter.beat) // BAND * BAND
        yield "tempo", f"{band} to {band + BAND - 1}"


def _positions(piece: Piece) -> set[int]:
    """Positions as the author says them."""
    said = {fret for _, fret in piece.music.positions}
    lines = (line for bar in piece.music.bars for line in bar.lines)
    said.update(s.position for line in lines for s in line.sounds if s.position is not None)
    return said


def _order(row: Row) -> tuple[int, int, int]:
    kind = KINDS.index(row.kind)
    if row.kind == "technique":
        return kind, NAMES.index(row.name), 0
    if row.kind == "key":
        return kind, 0, 0  # as they come: the sort is stable
    digits = [int(word) for word in row.name.split() if word.isdigit()]
    return kind, digits[0] if digits else 0, 0
