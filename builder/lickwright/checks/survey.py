"""What a rule about the whole course is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from lickwright.checks.claims.ledger import Judged, judge_course
from lickwright.checks.guitar_readings import Misread, list_misread
from lickwright.checks.likeness import Part, part_of_bar
from lickwright.checks.subject import Subject
from lickwright.model.course import Course
from lickwright.model.music import Piece
from lickwright.model.timeline import Book


@dataclass(frozen=True)
class Survey:
    """The course as read and as resolved, with what the proof of each piece has worked out.

    Attributes:
        limits: Threshold by name, the course's own put in.
        subjects: Lick, variation, chorus or scale by name; excerpts have none.
        broken: Numbers of the bars of a piece that could not be read whole, by its name.
    """

    course: Course
    book: Book
    limits: Mapping[str, float] = field(default_factory=dict)
    subjects: Mapping[str, Subject] = field(default_factory=dict)
    broken: Mapping[str, frozenset[int]] = field(default_factory=dict)

    def subject(self, name: str) -> Subject | None:
        """The piece of that name as its own proof saw it, or None."""
        return self.subjects.get(name)

    @cached_property
    def licks(self) -> tuple[tuple[str, Piece, tuple[Part, ...]], ...]:
        """The licks that vary no other: lesson, piece, and its bars as rows of notes."""
        return tuple(
            (placed.lesson, piece, tuple(part_of_bar(piece, bar) for bar in piece.music.bars))
            for placed in self.book.placed
            if (piece := placed.piece).kind == "lick" and not piece.of and piece.music.bars
        )

    @cached_property
    def claims(self) -> tuple[Judged, ...]:
        """What the words of the lessons say about notes, and what came of it."""
        return judge_course(self)

    @cached_property
    def misread(self) -> tuple[Misread, ...]:
        """The licks whose second witness tells of another guitar than is written."""
        return list_misread(self)
