"""A new course."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

Command = Callable[..., "subprocess.CompletedProcess[str]"]


def test_a_new_course_proofs_clean(lickwright: Command, tmp_path: Path) -> None:
    """It has a manifest and a lesson, and gives no finding at all."""
    assert lickwright("start", "mine").returncode == 0
    assert sorted(path.name for path in (tmp_path / "mine").rglob("*.*")) == ["course.toml", "first-lick.md"]
    outcome = lickwright("proof", "mine", "--format", "json", "--strict")
    assert outcome.returncode == 0, outcome.stdout + outcome.stderr
    assert json.loads(outcome.stdout)["findings"] == []


def test_a_folder_in_use_is_left_alone(lickwright: Command, tmp_path: Path) -> None:
    """A folder that is not empty is refused; an empty one is taken."""
    (tmp_path / "mine").mkdir()
    assert lickwright("start", "mine").returncode == 0
    before = {path: path.read_bytes() for path in (tmp_path / "mine").rglob("*.*")}
    again = lickwright("start", "mine")
    assert again.returncode == 2
    assert "not empty" in again.stderr
    assert {path: path.read_bytes() for path in (tmp_path / "mine").rglob("*.*")} == before
