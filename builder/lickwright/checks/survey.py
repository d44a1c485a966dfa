"""What a rule about the whole course is given."""

from __future__ import annotations

from dataclasses import dataclass

from lickwright.model.course import Course
from lickwright.model.timeline import Book


@dataclass(frozen=True, slots=True)
class Survey:
    """The course as read and as resolved."""

    course: Course
    book: Book
