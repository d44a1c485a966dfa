"""``lickwright errata``: on the terminal, and as a page with both engravings."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Command = Callable[..., Any]
MANIFEST = '[course]\ntitle = "L"\nauthor = "A"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n'
LESSON = "# One\n\n```lick walk\nkey: A major\n\nA | 5:0 - 5:4 - 4:2 - {last} -\n```\n"


@pytest.fixture
def editions(tmp_path: Path) -> Path:
    """Two editions, a note apart."""
    for name, last in (("old", "3:2"), ("new", "3:3")):
        (tmp_path / name / "lessons").mkdir(parents=True)
        (tmp_path / name / "course.toml").write_text(MANIFEST, encoding="utf-8")
        (tmp_path / name / "lessons" / "one.md").write_text(LESSON.format(last=last), encoding="utf-8")
    return tmp_path


def test_a_page_with_both_bars(lickwright: Command, editions: Path) -> None:
    """The bar stands there as it was and as it is, the note marked in each."""
    outcome = lickwright("errata", "old", "new", "--to", "errata")
    assert outcome.status == 0, outcome
    assert "is now string 3, fret 3" in outcome.out
    page = (editions / "errata" / "index.html").read_text(encoding="utf-8")
    assert page.count("<figure") == 2
    assert "As it was, bar 1" in page
    assert len(re.findall(r'class="[^"]*\bmark', page)) >= 2
    assert (editions / "errata" / "theme" / "page.css").exists()


def test_a_folder_that_is_no_course(lickwright: Command, editions: Path) -> None:
    """It is said which, with its findings."""
    (editions / "none").mkdir()
    outcome = lickwright("errata", "old", "none")
    assert outcome.status == 1
    assert "none cannot be read as a course" in outcome.err
