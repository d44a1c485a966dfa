"""The reader's findings, case by case: ``fixtures/`` holds what is written and what is said of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.reading.lesson import read_lesson
from lickwright.reading.manifest import read_manifest
from lickwright.text import Source

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.findings import Finding


def say(findings: Iterable[Finding], above: int = 0) -> list[str]:
    """Return a line a finding: rule, line and column, message."""
    places = [(finding, *finding.span.place) for finding in findings]
    return [f"{finding.rule} {line - above}:{column} {finding.message}" for finding, line, column in places]


def test_licks(lick_case) -> None:
    """The inside of a lick block; lines are counted in it."""
    _, findings = read_lesson(Source("lessons/x.md", f"```lick x\n{lick_case.text}\n```\n"), "x")
    assert lick_case.expected == say(findings, 1)


def test_lessons(lesson_case) -> None:
    """A whole lesson."""
    _, findings = read_lesson(Source("lessons/x.md", f"{lesson_case.text}\n"), "x")
    assert lesson_case.expected == say(findings)


def test_manifests(manifest_case) -> None:
    """A whole manifest."""
    _, findings = read_manifest(Source("course.toml", f"{manifest_case.text}\n"))
    assert manifest_case.expected == say(findings)
