"""Every row of the table of causes is needed: without it one slip would be told as several."""

from __future__ import annotations

import re
from fnmatch import fnmatchcase
from pathlib import Path

import pytest
from proofroom import Proofroom

from lickwright.checks import suppression
from lickwright.checks.suppression import CAUSES, Cause

TEXT = (Path(__file__).parent / "causes.md").read_text("utf-8")
_PARTS = re.split(r"^## (.*)\n", TEXT, flags=re.MULTILINE)[1:]
LESSONS = {row: lesson.strip() + "\n" for row, lesson in zip(_PARTS[::2], _PARTS[1::2], strict=True)}


def test_every_row_has_its_lesson() -> None:
    """A new row without a lesson, or a lesson whose row is gone, breaks this; no row stands twice."""
    rows = [cause.row for cause in CAUSES]
    assert sorted(LESSONS) == sorted(rows)
    assert len(_PARTS) == 2 * len(rows)


@pytest.mark.parametrize("cause", [pytest.param(cause, id=cause.row[:60]) for cause in CAUSES])
def test_a_row_turned_off_tells_one_slip_as_several(
    room: Proofroom, cause: Cause, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With its row a slip is one finding; without it, what the row silences is told too."""
    with_row = room.prove(LESSONS[cause.row]).findings
    assert [finding.rule for finding in with_row] == [cause.rule]
    monkeypatch.setattr(suppression, "CAUSES", tuple(other for other in CAUSES if other is not cause))
    without = room.prove(LESSONS[cause.row]).findings
    effects = [finding.rule for finding in without if finding.rule != cause.rule]
    assert effects
    assert all(any(fnmatchcase(rule, pattern) for pattern in cause.silences) for rule in effects)
