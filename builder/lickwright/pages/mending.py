"""The music as it would be with a finding's fix put into the author's text: read anew, resolved anew."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from lickwright.findings import Edit, Finding, Severity
from lickwright.model.blocks import Lick, Progression, ScaleBlock
from lickwright.model.course import Course, Lesson, Unit
from lickwright.model.fields import Shape
from lickwright.model.music import Piece
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import Base, read_lesson
from lickwright.text import Source


def mend_piece(course: Course, finding: Finding, known: Iterable[Finding] = ()) -> Piece | None:
    """Return the lick of a finding as its fix would leave it.

    Args:
        course: As read.
        finding: With or without a fix.
        known: All that has been found in the course.

    Returns:
        None without a fix, where the fix is not in a lesson, and where it brings an error that was not there.
    """
    edits = finding.fix.edits if finding.fix else ()
    told = {_told(each) for each in known if each.lick == finding.lick} - {_told(finding)}
    paths = {edit.span.source.path for edit in edits}
    licks = course.licks
    if len(paths) != 1 or finding.lick not in licks:
        return None
    chain = _chain(licks, finding.lick)
    lessons = (*course.lessons, *course.drafts)
    lesson = next((one for one in lessons if one.source.path in paths), None)
    text = apply_edits(lesson.source.text, edits) if lesson else None
    if lesson is None or text is None:
        return None
    guitar = course.settings.guitar
    again, faults = read_lesson(
        Source(lesson.source.path, text),
        lesson.name,
        strings=guitar.tuning.count,
        bases=_bases(licks, chain, guitar.tuning.count),
        guitar=guitar,
    )
    if _failed(faults, finding.lick, told):
        return None
    book, faults = resolve(_part_of(course, again, frozenset(chain)))
    return None if _failed(faults, finding.lick, told) else book.piece(finding.lick)


def apply_edits(text: str, edits: Iterable[Edit]) -> str | None:
    """Return a text with edits put in; None where they overlap or lie outside it."""
    parts, at = [], 0
    for edit in sorted(edits, key=lambda edit: (edit.span.start, edit.span.end)):
        if not at <= edit.span.start <= edit.span.end <= len(text):
            return None
        parts += [text[at : edit.span.start], edit.text]
        at = edit.span.end
    return "".join((*parts, text[at:]))


def _told(finding: Finding) -> tuple[str, str]:
    return finding.rule, finding.message


def _failed(faults: Iterable[Finding], lick: str, told: set[tuple[str, str]]) -> bool:
    return any(f.lick == lick and f.severity is Severity.ERROR and _told(f) not in told for f in faults)


def _chain(licks: dict[str, Lick], name: str) -> list[str]:
    """A lick and those that it varies, the nearest first."""
    chain: list[str] = []
    while name in licks and name not in chain:
        chain.append(name)
        name = licks[name].vary or ""
    return chain


def _bases(licks: dict[str, Lick], chain: Sequence[str], strings: int) -> dict[str, Base]:
    """What each variation of a chain is read against, as when the course is read."""
    bases: dict[str, Base] = {}
    for at, name in enumerate(chain[:-1]):
        shapes: dict[str, Shape] = {}
        for base in chain[at + 1 :]:
            shapes = {shape.name: shape for shape in licks[base].shapes} | shapes
        tuning = next((t for each in chain[at:] if (t := licks[each].tuning) is not None), None)
        bases[name] = Base(tuning.count if tuning else strings, tuple(shapes.values()))
    return bases


def _part_of(course: Course, lesson: Lesson, licks: frozenset[str]) -> Course:
    """The course with a lesson read anew, and in it nothing but what the licks rest on."""

    def part(one: Lesson) -> Lesson:
        one = lesson if one.name == lesson.name else one
        blocks = tuple(
            placed
            for placed in one.blocks
            if isinstance(placed.block, Progression | ScaleBlock)
            or (isinstance(placed.block, Lick) and placed.block.name in licks)
        )
        return replace(one, blocks=blocks, links=())

    units = tuple(
        Unit(unit.title, tuple(map(part, unit.lessons)), tuple(map(part, unit.drafts)))
        for unit in course.units
    )
    return replace(course, units=units)
