"""Sign-off: which lessons have been proofread and passed, and which have changed since.

The mark of a lesson is made of the music that stands in it, as resolved, and of its words; moving a line,
or breaking it elsewhere, does not change the mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from lickwright.model.canonical import lasting_digest
from lickwright.model.course import Course, Lesson
from lickwright.model.prose import paragraphs
from lickwright.model.signature import Signature
from lickwright.model.timeline import Book

MARK_LENGTH = 12
"""Hexadecimal digits."""
State = Literal["signed", "changed since signed", "not signed"]


@dataclass(frozen=True, slots=True)
class SignOff:
    """How far a lesson is.

    Attributes:
        signature: The last one, or None.
        mark: Of the lesson as it is now.
    """

    lesson: Lesson
    state: State
    signature: Signature | None
    mark: str


def mark_lesson(lesson: Lesson, book: Book) -> str:
    """Return the mark of a lesson's music and words."""
    pieces = tuple(
        (piece.title, piece.music, piece.tempo, piece.slow, piece.feel)
        for placed in lesson.blocks
        if (piece := book.at(lesson.name, placed.line)) is not None
    )
    others = tuple(p.block for p in lesson.blocks if book.at(lesson.name, p.line) is None)
    return lasting_digest((pieces, others, paragraphs(lesson)))[:MARK_LENGTH]


def list_sign_offs(course: Course, book: Book) -> tuple[SignOff, ...]:
    """Return how far each published lesson is, in the order of study."""
    signatures = {signature.lesson: signature for signature in course.signatures}
    return tuple(
        _sign_off(lesson, signatures.get(lesson.name), mark_lesson(lesson, book)) for lesson in course.lessons
    )


def list_unsigned(course: Course, book: Book) -> tuple[SignOff, ...]:
    """Return the published lessons that nobody has signed as they stand."""
    return tuple(each for each in list_sign_offs(course, book) if each.state != "signed")


def _sign_off(lesson: Lesson, signature: Signature | None, mark: str) -> SignOff:
    if signature is None:
        return SignOff(lesson, "not signed", None, mark)
    state: State = "signed" if signature.mark == mark else "changed since signed"
    return SignOff(lesson, state, signature, mark)
