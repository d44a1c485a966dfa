"""The first half of every command: a course is read, resolved and proofed."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lickwright.checks.proof import Proof
    from lickwright.model.course import Course
    from lickwright.model.timeline import Book


@dataclass(frozen=True, slots=True)
class Proofed:
    """A course and what the builder has to say about it.

    Attributes:
        course: As read; None when there is no manifest to go by.
        book: As resolved.
        proof: The findings.
    """

    course: Course | None
    book: Book | None
    proof: Proof


def proof_course(folder: Path) -> Proofed:
    """Read, resolve and proof the course in a folder; its faults are findings, whatever they are."""
    from lickwright.checks.proof import Proof, proof
    from lickwright.model.timeline import resolve
    from lickwright.reading.course import read_course

    course, findings = read_course(folder)
    if course is None:
        return Proofed(None, None, Proof(tuple(sorted(findings, key=lambda finding: finding.sort_key))))
    book, unresolved = resolve(course)
    return Proofed(course, book, proof(course, book, (*findings, *unresolved)))
