"""Signing a lesson: the proof must be clean, then who passed it and the lesson's mark are written down."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lickwright.building.proofing import proof_course
from lickwright.checks.selection import select
from lickwright.checks.signing import list_sign_offs
from lickwright.findings import Finding, Severity
from lickwright.model.course import Course
from lickwright.model.signature import Signature
from lickwright.reading.signatures import NAME

SIGNED_ANEW = "course/changed-since-signed"
"""What signing answers."""
HEAD = "# Lessons that have been proofread and passed, and the mark of what they held then.\n"


@dataclass(frozen=True, slots=True)
class Signed:
    """What came of it.

    Attributes:
        known: Names of the lessons there are; empty when the course cannot be read.
        open: Errors and queries that keep the lesson from being passed.
        signature: As written down, or None.
    """

    known: tuple[str, ...]
    open: tuple[Finding, ...] = ()
    signature: Signature | None = None


def sign_lesson(folder: Path, name: str, by: str) -> Signed:
    """Sign a lesson of the course in a folder, unless its proof has something left to say.

    Raises:
        OSError: The file cannot be written.
    """
    proofed = proof_course(folder)
    course, book = proofed.course, proofed.book
    if course is None or book is None:
        return Signed((), tuple(proofed.proof.findings))
    known = tuple(lesson.name for lesson in course.lessons)
    if name not in known:
        return Signed(known)
    # A file of signatures that cannot be read is not written over: the others' are in it.
    unread = [f for f in proofed.proof.findings if f.rule == "course/signatures"]
    left = tuple(
        finding
        for finding in (*unread, *select(proofed.proof, lessons=[name]).findings)
        if finding.severity is not Severity.NOTE and finding.rule != SIGNED_ANEW
    )
    if left:
        return Signed(known, left)
    mark = next(each.mark for each in list_sign_offs(course, book) if each.lesson.name == name)
    signature = Signature(name, by, mark)
    text = render_signatures(course, signature)
    made = folder / f"{NAME}.new"
    made.write_text(text, encoding="utf-8", newline="\n")
    made.replace(folder / NAME)
    return Signed(known, (), signature)


def render_signatures(course: Course, signature: Signature) -> str:
    """Return ``proofed.toml`` with a signature put in, in the order of study."""
    signed = {each.lesson: each for each in course.signatures} | {signature.lesson: signature}
    order = [lesson.name for lesson in (*course.lessons, *course.drafts) if lesson.name in signed]
    tables = [
        f"\n[{_quote(name)}]\nby = {_quote(signed[name].by)}\nmark = {_quote(signed[name].mark)}\n"
        for name in order
    ]
    return HEAD + "".join(tables)


def _quote(text: str) -> str:
    """A basic string of TOML: a quotation mark, a backslash and what cannot be seen are escaped."""
    escaped = (
        f"\\{sign}" if sign in '"\\' else sign if sign.isprintable() else f"\\U{ord(sign):08x}"
        for sign in text
    )
    return f'"{"".join(escaped)}"'
