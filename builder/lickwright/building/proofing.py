"""The first half of every command: a course is read, resolved and proofed."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
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


@contextmanager
def no_garbage_looked_for() -> Iterator[None]:
    """Put the collector of reference cycles off while much is made that stays.

    What reading and proofing make holds no cycles, so looking for them frees nothing; with thousands of licks
    it costs a third of the time.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def proof_course(folder: Path) -> Proofed:
    """Read, resolve and proof the course in a folder; its faults are findings, whatever they are."""
    from lickwright.checks.proof import Proof, proof
    from lickwright.model.timeline import resolve
    from lickwright.reading.course import read_course

    with no_garbage_looked_for():
        course, findings = read_course(folder)
        if course is None:
            return Proofed(None, None, Proof(tuple(sorted(findings, key=lambda finding: finding.sort_key))))
        book, unresolved = resolve(course)
        return Proofed(course, book, proof(course, book, (*findings, *unresolved)))
