"""The author's answers to the queries, put into the lessons: stets sealed, notes exchanged."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from lickwright.building.proofing import Proofed, proof_course
from lickwright.building.rewriting import apply_edits, rewrite
from lickwright.checks.stets import Offers
from lickwright.findings import Edit, Finding, Severity
from lickwright.model.blocks import Chorus, Lick, Progression, ScaleBlock
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source

if TYPE_CHECKING:
    from lickwright.report.queries import Answer


@dataclass(frozen=True, slots=True)
class Answered:
    """What became of an answer.

    Attributes:
        answer: As given.
        said: ``stands by stet``, ``mended``; or why nothing was done.
        done: Whether a lesson was changed.
    """

    answer: Answer
    said: str
    done: bool = False


def put_answers(folder: Path, answers: Iterable[Answer]) -> tuple[Answered, ...]:
    """Put answers into the lessons of a course; each is looked up in a fresh proof of it.

    Args:
        folder: The course.
        answers: As read from the list that came back.

    Raises:
        OSError: A lesson cannot be written.
    """
    proofed = proof_course(folder)
    edits: dict[str, list[Edit]] = defaultdict(list)
    told: list[Answered] = []
    for answer in answers:
        said, made = _edit(proofed, answer)
        for edit in made:
            path = edit.span.source.path
            if any(_overlap(edit, other) for other in edits[path]):
                said, made = "another answer has changed this place: proof again", []
                break
            if rewrite((folder / path).read_bytes(), [edit]) is None:
                said, made = f"{path} is not UTF-8, or was changed just now: mend it by hand", []
                break
        for edit in made:
            edits[edit.span.source.path].append(edit)
        told.append(Answered(answer, said, bool(made)))
    for path, changes in edits.items():
        if changes:
            file = folder / path
            made_new = rewrite(file.read_bytes(), changes)
            if made_new is not None:
                file.write_bytes(made_new)
    return tuple(told)


def _edit(proofed: Proofed, answer: Answer) -> tuple[str, list[Edit]]:
    found = _find(proofed.proof.findings, answer)
    if found is None:
        return "no longer found", []
    if answer.unclear:
        return 'cannot be read: write stet "the reason", mend, or the new text', []
    if answer.reason:
        return _stet(proofed, found, answer.reason)
    if answer.mend:
        if found.fix is None or not found.fix.edits:
            return "nothing is offered to mend it with: write what is to stand there", []
        return "mended", list(found.fix.edits)
    if not found.span.source.path.startswith("lessons/"):
        return "stands in no lesson: mend it by hand", []
    edit = Edit(found.span, answer.text)
    if _count_errors(apply_edits(found.span.source.text, [edit]), found) > _count_errors(
        found.span.source.text, found
    ):
        return "cannot stand there: it does not read as what is marked", []
    return "mended", [edit]


def _count_errors(text: str, finding: Finding) -> int:
    """How much of a lesson cannot be read."""
    _, findings = read_lesson(Source(finding.span.source.path, text), "answered")
    return sum(each.severity is Severity.ERROR for each in findings)


def _find(findings: Iterable[Finding], answer: Answer) -> Finding | None:
    """The finding that was asked about: the one at its place, else the only one at its address."""
    same = [f for f in findings if (f.rule, f.lick, f.address) == (answer.rule, answer.lick, answer.address)]
    at_place = [f for f in same if "{}:{}:{}".format(f.span.source.path, *f.span.place) == answer.place]
    near = at_place or same
    return near[0] if len(near) == 1 or at_place else None


def _stet(proofed: Proofed, finding: Finding, reason: str) -> tuple[str, list[Edit]]:
    said = ""
    if proofed.course is not None and proofed.book is not None and '"' not in reason:
        said = Offers(proofed.course, proofed.book, proofed.proof.findings).stet(finding, reason)
    if not said:
        return "cannot be let stand: mend it", []
    place = _end_of_fields(proofed, finding.lick)
    if place is None:
        return f"there is no block {finding.lick} to write the stet into", []
    source, at, margin = place
    return "stands by stet", [Edit(source.span(at, at), f"{margin}{said}\n")]


def _end_of_fields(proofed: Proofed, name: str) -> tuple[Source, int, str] | None:
    """Where a block's fields end, and what stands before each of its lines (a quote's or list's margin)."""
    if proofed.course is None:
        return None
    for lesson in (*proofed.course.lessons, *proofed.course.drafts):
        for placed in lesson.blocks:
            block = placed.block
            if isinstance(block, Lick | Chorus | Progression | ScaleBlock) and block.name == name:
                number = placed.line + 1
                fence = lesson.source.line(number)
                margin = re.split("```|~~~", fence, maxsplit=1)[0]
                last = max(_fields(lesson.source, placed.line + 2, margin))
                return lesson.source, lesson.source.line_start(last + 1), margin
    return None


def _fields(source: Source, first: int, margin: str) -> Iterator[int]:
    yield first - 1  # the fence itself
    number = first
    while ":" in (said := source.line(number)[len(margin) :]).partition("|")[0] or said.startswith(";"):
        yield number
        number += 1


def _overlap(a: Edit, b: Edit) -> bool:
    if a.span.start == a.span.end or b.span.start == b.span.end:
        return False
    return a.span.start < b.span.end and b.span.start < a.span.end
