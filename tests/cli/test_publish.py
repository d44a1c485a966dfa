"""``lickwright publish`` as an author runs it."""

import subprocess
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from lickwright.building.budget import Weight
from lickwright.cli.publish import tell

Command = Callable[..., Any]


@pytest.fixture
def started(lickwright: Command, tmp_path: Path) -> Path:
    """A new course in ``content``."""
    assert lickwright("start", "content").status == 0
    return tmp_path / "content"


@pytest.mark.slow
def test_a_site_is_published(lickwright: Command, started: Path, tmp_path: Path, caches: Path) -> None:
    """It stands in ``site``, the status is 0, nothing but the summary is said."""
    assert started.is_dir()
    outcome = lickwright("publish", "--no-sound")
    assert outcome.status == 0, outcome
    assert outcome.out == ""
    assert outcome.err.count("\n") == 1
    assert "Open site/index.html" in outcome.err
    assert (tmp_path / "site" / "lessons" / "first-lick.html").exists()
    assert (caches / "lickwright").is_dir()


@pytest.mark.slow
def test_progress_on_demand(lickwright: Command, started: Path) -> None:
    """Asked for, it says how many licks there are and which one is in hand."""
    assert started.is_dir()
    outcome = lickwright("publish", "--no-sound", "--progress", "--cache", "elsewhere")
    assert "Engraving and sounding" in outcome.err
    assert "front-gate" in outcome.err
    assert "\x1b" not in outcome.err
    assert (started.parent / "elsewhere").is_dir()


def test_an_error_is_said_and_the_site_stays(lickwright: Command, started: Path, tmp_path: Path) -> None:
    """With an error the status is 1 and the last site is untouched."""
    lickwright("publish", "--no-sound")
    before = (tmp_path / "site" / "index.html").stat().st_ino
    lesson = started / "lessons" / "first-lick.md"
    lesson.write_text(lesson.read_text(encoding="utf-8").replace("2:2 2:0", "2:2"), encoding="utf-8")
    outcome = lickwright("publish", "--no-sound")
    assert outcome.status == 1
    assert "rhythm/bar-length" in outcome.out
    assert "last site is as it was" in outcome.err
    assert (tmp_path / "site" / "index.html").stat().st_ino == before


def test_a_folder_that_is_not_ours_is_refused(lickwright: Command, started: Path, tmp_path: Path) -> None:
    """A folder with an author's own files is not replaced: status 2, and they are still there."""
    for folder in (started, tmp_path / "letters"):
        folder.mkdir(exist_ok=True)
        (folder / "letter.txt").write_text("dear")
        outcome = lickwright("publish", "--no-sound", "--to", folder)
        assert outcome.status == 2
        assert "no publish put there" in outcome.err
        assert (folder / "letter.txt").read_text() == "dear"


@pytest.mark.parametrize("folder", ["/", "circle"])
def test_a_place_that_can_hold_no_site(
    lickwright: Command, started: Path, tmp_path: Path, folder: str
) -> None:
    """The root of the disk and a circle of links end with status 2 and a plain sentence."""
    assert started.is_dir()
    (tmp_path / "circle").symlink_to("circle")
    outcome = lickwright("publish", "--no-sound", "--to", folder)
    assert outcome.status == 2
    assert outcome.err.count("\n") == 1
    assert "fault of the builder" not in outcome.err


@pytest.mark.parametrize(
    ("template", "said"),
    [
        (b"<p>\n{% if %}\n", "theme/templates/lesson.html, line 2"),
        (b"<p>\n{{ nowhere }}\n", "theme/templates/lesson.html, line 2: 'nowhere' is undefined"),
        (b"caf\xe9", "theme/templates/lesson.html, line 1: the file is not UTF-8"),
    ],
)
def test_a_fault_in_the_authors_theme(lickwright: Command, started: Path, template: bytes, said: str) -> None:
    """The file and line of the theme are named, status 2; the builder takes no blame."""
    (started / "theme" / "templates").mkdir(parents=True)
    (started / "theme" / "templates" / "lesson.html").write_bytes(template)
    outcome = lickwright("publish", "--no-sound")
    assert outcome.status == 2
    assert said in outcome.err
    assert "fault of the builder" not in outcome.err


def test_git_sees_nothing_of_a_publish(lickwright: Command, started: Path, tmp_path: Path) -> None:
    """In a fresh clone, where ``site`` holds only its .gitignore, a publish leaves the work tree clean."""
    assert started.is_dir()

    def git(*arguments: str) -> str:
        identity = ("-c", "user.name=a", "-c", "user.email=a@b.c")
        done = subprocess.run(
            ["git", "-C", tmp_path, *identity, *arguments], check=True, capture_output=True, text=True
        )
        return done.stdout

    (tmp_path / "site").mkdir()
    (tmp_path / "site" / ".gitignore").write_text("*\n!.gitignore\n")
    git("init", "-q")
    git("add", ".")
    git("commit", "-qm", "course")
    assert lickwright("publish", "--no-sound").status == 0
    assert (tmp_path / "site" / "index.html").exists()
    assert git("status", "--porcelain") == ""


def test_a_heavy_page_is_noted_after_the_summary(capsys: pytest.CaptureFixture[str]) -> None:
    """The page, what it weighs, and what might be done; the status stays 0."""
    heavy = (Weight("lessons/long.html", 848_000, 122_000, 11_480, (("reel", 90_400), ("walk", 71_000))),)
    proofed = SimpleNamespace(proof=SimpleNamespace(findings=()))
    came_to = SimpleNamespace(
        proofed=proofed, findings=(), site=True, pages=1, made=0, kept=0, heavy=heavy, unsigned=()
    )
    assert tell(came_to, Path("site")) == 0
    summary, note = capsys.readouterr().err.splitlines()
    assert "1 pages in site" in summary
    assert "lessons/long.html is heavy (848 kB, 122 kB packed, 11480 elements)" in note
    assert "Its largest: reel 90 kB, walk 71 kB." in note
