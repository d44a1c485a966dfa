"""The order in which findings are numbered, on the proof sheet and in a list of queries alike."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lickwright.findings import Finding
    from lickwright.model.course import Course


def in_order(course: Course | None, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings the gravest first, then in the order of study.

    Args:
        course: As read; without one, files go by their names.
        findings: All or a part. What is in no lesson (the manifest) comes before the lessons.
    """
    lessons = (*course.lessons, *course.drafts) if course else ()
    places = {lesson.source.path: place for place, lesson in enumerate(lessons, 1)}
    return tuple(sorted(findings, key=lambda f: (-f.severity, places.get(f.span.source.path, 0), f.sort_key)))
