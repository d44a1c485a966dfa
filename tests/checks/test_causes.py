"""Every entry of the table of causes is needed: without it one slip would be told as several."""

from __future__ import annotations

import re
from fnmatch import fnmatchcase
from pathlib import Path

import pytest
from proofroom import Proofroom

from lickwright.checks import suppression
from lickwright.checks.suppression import CAUSES, GROUPS, Cause

TEXT = (Path(__file__).parent / "causes.md").read_text("utf-8")
_PARTS = re.split(r"^## (.*)\n", TEXT, flags=re.MULTILINE)[1:]
LESSONS = {
    row: [f"{lesson.strip()}\n" for lesson in re.split(r"^---\n", lessons, flags=re.MULTILINE)]
    for row, lessons in zip(_PARTS[::2], _PARTS[1::2], strict=True)
}


def test_every_row_has_its_lessons() -> None:
    """A new row without a lesson, or a lesson whose row is gone, breaks this; no row stands twice."""
    rows = [cause.row for cause in CAUSES]
    assert sorted(LESSONS) == sorted(rows)
    assert len(_PARTS) == 2 * len(rows)


def _unseen(cause: Cause, effects: set[str]) -> list[str]:
    """The entries of a row, groups by their name, under which no effect falls."""
    entries = cause.row.split("|")[2].split()
    seen = {
        entry
        for entry in entries
        for pattern in GROUPS.get(entry, entry).split()
        if any(fnmatchcase(rule, pattern) for rule in effects)
    }
    return [entry for entry in entries if entry not in seen]


@pytest.mark.parametrize("cause", [pytest.param(cause, id=cause.row[:60]) for cause in CAUSES])
def test_a_row_turned_off_tells_one_slip_as_several(
    room: Proofroom, cause: Cause, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With its row a slip is one finding; without it, what the row silences is told too, all of it."""
    shown: set[str] = set()
    for lesson in LESSONS[cause.row]:
        monkeypatch.setattr(suppression, "CAUSES", CAUSES)
        assert [finding.rule for finding in room.prove(lesson).findings] == [cause.rule], lesson
        monkeypatch.setattr(suppression, "CAUSES", tuple(other for other in CAUSES if other is not cause))
        effects = {finding.rule for finding in room.prove(lesson).findings} - {cause.rule}
        assert effects, lesson
        assert all(any(fnmatchcase(rule, pattern) for pattern in cause.silences) for rule in effects), lesson
        shown |= effects
    assert _unseen(cause, shown) == []


def test_an_effect_that_no_lesson_shows_is_missed() -> None:
    """An entry that never silenced anything, a pattern among them, or a group."""
    cause = next(cause for cause in CAUSES if cause.row.startswith("hands/harmonic-node"))
    assert _unseen(cause, {"harmony/clash", "witness/names"}) == []
    assert _unseen(cause, {"witness/names", "hands/shift"}) == ["NOTES"]
    assert _unseen(cause, {"harmony/clash"}) == ["witness/*"]
