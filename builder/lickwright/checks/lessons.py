"""What a lesson says apart from its music, and what of a course counts: drafts and excerpts do not."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lickwright.model.course import Course, Lesson
from lickwright.model.music import Piece
from lickwright.model.timeline import Book

_FENCE = re.compile(r"[ >]*(?:(?:[-*+]|[0-9]+[.)])[ ]+)*(`{3,}|~{3,})")
_HEADING = re.compile(r"^ {0,3}(?:#{1,6}(?:[ \t]|$)|.*\S.*\n {0,3}(?:=+|-+)[ \t]*$)", re.MULTILINE)


def list_prose(lesson: Lesson, *, code: bool = False) -> str:
    """Return the text of a lesson without its music.

    Args:
        lesson: As read.
        code: Whether what stands in ordinary fences is text too: tables of signs often do.
    """
    blocks = {placed.line for placed in lesson.blocks}
    kept: list[str] = []
    closing = ""
    dropped = False
    for number, line in enumerate(lesson.source.text.splitlines()):
        fence = _FENCE.match(line)
        if closing:
            if fence is not None and fence[1].startswith(closing):
                closing = ""
            elif not dropped:
                kept.append(line)
        elif fence is not None:
            closing = fence[1]
            dropped = not code or number in blocks
        else:
            kept.append(line)
    return "\n".join(kept)


def has_heading(lesson: Lesson) -> bool:
    """Whether a lesson has a heading anywhere."""
    return _HEADING.search(list_prose(lesson)) is not None


def list_published(course: Course, book: Book) -> Iterator[tuple[int, Piece]]:
    """Yield the licks of the published lessons in the order of study, each with its lesson's index."""
    numbers = {lesson.name: number for number, lesson in enumerate(course.lessons)}
    for placed in book.placed:
        number = numbers.get(placed.lesson)
        if number is not None and placed.piece.kind == "lick":
            yield number, placed.piece
