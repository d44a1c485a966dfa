"""``lickwright proof --sheet``."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

MANIFEST = (
    '[course]\ntitle = "T"\nauthor = "A"\nkey = "A major"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n'
)
LESSON = "# One\n\n```lick one\nA | 5:0 - 4:2 - 3:2 -\n```\n"


def test_the_sheet_stands_beside_the_report(lickwright: Callable[..., Any], tmp_path: Path) -> None:
    """The findings are printed as ever, the status is theirs; the sheet shows what was asked for."""
    (tmp_path / "content" / "lessons").mkdir(parents=True)
    (tmp_path / "content" / "course.toml").write_text(MANIFEST, encoding="utf-8")
    (tmp_path / "content" / "lessons" / "one.md").write_text(LESSON, encoding="utf-8")
    done = lickwright("proof", "--sheet", "sheet")
    assert done.status == 1
    assert "rhythm/bar-length" in done.out
    assert f"The proof sheet is {Path('sheet') / 'proof.html'}." in done.err
    assert "One error" in (tmp_path / "sheet" / "proof.html").read_text(encoding="utf-8")
    clean = lickwright("proof", "--only", "harmony", "--sheet", "sheet")
    assert clean.status == 0
    assert "No errors" in (tmp_path / "sheet" / "proof.html").read_text(encoding="utf-8")


def test_no_course_no_sheet(lickwright: Callable[..., Any], tmp_path: Path) -> None:
    """Without a manifest the command says that there is nothing to make a sheet of."""
    (tmp_path / "content").mkdir()
    done = lickwright("proof", "--sheet", "sheet")
    assert done.status == 1
    assert "No proof sheet" in done.err
    assert not (tmp_path / "sheet").exists()
