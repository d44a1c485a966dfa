"""A new course."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

Command = Callable[..., Any]


def test_a_new_course_proofs_clean(lickwright: Command, tmp_path: Path) -> None:
    """It has a manifest and a lesson, and gives no finding at all."""
    assert lickwright("start", "mine").status == 0
    assert sorted(path.name for path in (tmp_path / "mine").rglob("*.*")) == ["course.toml", "first-lick.md"]
    outcome = lickwright("proof", "mine", "--format", "json", "--strict")
    assert outcome.status == 0, outcome
    assert json.loads(outcome.out)["findings"] == []


def test_a_folder_in_use_is_left_alone(lickwright: Command, tmp_path: Path) -> None:
    """A folder that is not empty is refused; an empty one is taken."""
    (tmp_path / "mine").mkdir()
    assert lickwright("start", "mine").status == 0
    before = {path: path.read_bytes() for path in (tmp_path / "mine").rglob("*.*")}
    again = lickwright("start", "mine")
    assert again.status == 2
    assert "not empty" in again.err
    assert {path: path.read_bytes() for path in (tmp_path / "mine").rglob("*.*")} == before
