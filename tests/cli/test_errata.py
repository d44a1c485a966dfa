"""``lickwright errata``: on the terminal, and as a page with both engravings."""

import json
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


def test_a_page_says_a_line_of_the_manifest_once(lickwright: Command, editions: Path) -> None:
    """Under its own head, with the licks in which it shows; no bar is engraved for it."""
    manifest = editions / "new" / "course.toml"
    manifest.write_text(MANIFEST + "\n[guitar]\ncapo = 2\n", encoding="utf-8")
    (editions / "new" / "lessons" / "one.md").write_text(LESSON.format(last="3:2"), encoding="utf-8")
    assert lickwright("errata", "old", "new", "--to", "errata").status == 0
    page = (editions / "errata" / "index.html").read_text(encoding="utf-8")
    assert page.count("<h3") == 1
    assert "<h2>The course</h2>" in page
    assert "Capo: 0 is now 2" in page
    assert "In walk." in page
    assert "<figure" not in page


def test_a_folder_that_is_no_course(lickwright: Command, editions: Path) -> None:
    """It is said which, with its findings."""
    (editions / "none").mkdir()
    outcome = lickwright("errata", "old", "none")
    assert outcome.status == 1
    assert "none cannot be read as a course" in outcome.err


@pytest.mark.parametrize(
    ("was", "now", "editions_said"),
    [("3:2q", "3:9q", "old, new"), ("3:2q", "3:2", "old"), ("3:2", "3:2q", "new")],
)
def test_a_bar_that_cannot_be_read_is_not_passed_over(
    lickwright: Command, editions: Path, was: str, now: str, editions_said: str
) -> None:
    """It is named with its editions, nothing is said of its notes, and the status is that of a fault."""
    for name, last in (("old", was), ("new", now)):
        (editions / name / "lessons" / "one.md").write_text(
            LESSON.replace("A |", "A | 5:0 - - - - - - -\nA |").format(last=last), encoding="utf-8"
        )
    outcome = lickwright("errata", "old", "new", "--to", "errata")
    assert outcome.status == 1
    assert f"bar 2 of walk could not be read ({editions_said})" in outcome.out
    assert "Nothing has changed" not in outcome.out
    assert "string 3" not in outcome.out
    page = (editions / "errata" / "index.html").read_text(encoding="utf-8")
    assert f"Bar 2 of walk could not be read ({editions_said})" in page
    outcome = lickwright("errata", "old", "new", "--format", "json")
    assert json.loads(outcome.out)["unread"] == [
        {"lick": "walk", "bar": 2, "old": "old" in editions_said, "new": "new" in editions_said}
    ]


def test_a_lick_that_cannot_be_made_is_neither_put_in_nor_taken_out(
    lickwright: Command, editions: Path
) -> None:
    """A variation of what there is not: it is there, and cannot be compared."""
    made = "\n```lick other\nvary: {}\n1.1: 5:2\n```\n"
    for name, base in (("old", "walks"), ("new", "walk")):
        text = LESSON.format(last="3:2") + made.format(base)
        (editions / name / "lessons" / "one.md").write_text(text, encoding="utf-8")
    outcome = lickwright("errata", "old", "new")
    assert outcome.status == 1
    assert "other could not be read (old)" in outcome.out
    assert "put in" not in outcome.out
