"""Sign-off: a clean lesson is passed, a later change shows, and an unsigned course does not publish."""

import io
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Command = Callable[..., Any]
MANIFEST = """[course]
title = "Landing"
author = "A"

[[unit]]
title = "U"
lessons = ["one.md", "two.md"]
"""
LESSON = """# {name}

It goes up and comes home.

```lick {name}
key: A major

A | 5:0 - 5:4 - 4:2 - 3:2 -
```
"""


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """A course of two clean lessons."""
    folder = tmp_path / "content"
    (folder / "lessons").mkdir(parents=True)
    (folder / "course.toml").write_text(MANIFEST, encoding="utf-8")
    for name in ("one", "two"):
        (folder / "lessons" / f"{name}.md").write_text(LESSON.format(name=name), encoding="utf-8")
    return folder


def change(course: Path, old: str, new: str) -> None:
    """Change the first lesson."""
    file = course / "lessons" / "one.md"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_clean_lesson_is_signed(lickwright: Command, course: Path) -> None:
    """Who and a mark are written down, whatever the name has in it; signing again keeps the other."""
    assert lickwright("sign", "one", "--by", 'Ann "Reed" \\ Co').status == 0
    assert lickwright("sign", "two.md", "--by", "Bo").status == 0
    told = tomllib.loads((course / "proofed.toml").read_text(encoding="utf-8"))
    assert {name: table["by"] for name, table in told.items()} == {"one": 'Ann "Reed" \\ Co', "two": "Bo"}
    assert told["one"]["mark"] != told["two"]["mark"]
    assert "changed since" not in lickwright("proof").out


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("5:4", "5:2"),
        ("A |", "A7 |"),
        ("comes home", "stays there"),
        ("key: A major\n", "key: A major\ntempo: 90\n"),
        ("4:2 - 3:2", "4:2! - 3:2"),
    ],
)
def test_a_change_shows(lickwright: Command, course: Path, old: str, new: str) -> None:
    """A note, a chord, a word, the tempo, an accent."""
    lickwright("sign", "one", "--by", "Ann")
    change(course, old, new)
    outcome = lickwright("proof", "--only", "course")
    assert "“one” has changed since Ann signed it" in outcome.out
    assert "proofed.toml:3:2" in outcome.out


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("# one\n", "# one\n\n"),
        ("It goes up and comes", "It goes up\nand comes"),
        ("4:2 - 3:2 -", "4:2  -  3:2 -   ; home"),
    ],
)
def test_a_move_does_not_show(lickwright: Command, course: Path, old: str, new: str) -> None:
    """An empty line, another line break, blanks and a comment are no change."""
    lickwright("sign", "one", "--by", "Ann")
    change(course, old, new)
    assert "changed since" not in lickwright("proof").out


def test_a_lesson_with_open_queries_is_not_signed(lickwright: Command, course: Path) -> None:
    """What is left open is shown; a stet clears the way; the other lesson is no hindrance."""
    change(course, "3:2 -", "3:3 -")
    outcome = lickwright("sign", "one", "--by", "Ann")
    assert (outcome.status, "harmony/unexplained" in outcome.out) == (1, True)
    assert not (course / "proofed.toml").exists()
    assert lickwright("sign", "two", "--by", "Ann").status == 0
    change(course, "key: A major\n", 'key: A major\nstet: harmony/unexplained "it is meant"\n')
    assert lickwright("sign", "one", "--by", "Ann").status == 0


@pytest.mark.slow
def test_only_what_is_signed_is_published(lickwright: Command, course: Path) -> None:
    """Not signed and changed since are told by name, and the last site stays."""
    lickwright("sign", "one", "--by", "Ann")
    outcome = lickwright("publish", "--signed", "--no-sound")
    assert outcome.status == 1
    assert "lessons/two.md: not signed" in outcome.err
    lickwright("sign", "two", "--by", "Ann")
    change(course, "comes home", "stays")
    assert (
        "lessons/one.md: changed since signed by Ann" in lickwright("publish", "--signed", "--no-sound").err
    )
    assert not (course.parent / "site" / "index.html").exists()
    lickwright("sign", "one", "--by", "Ann")
    assert lickwright("publish", "--signed", "--no-sound").status == 0


@pytest.mark.usefixtures("course")
def test_names_that_cannot_be(lickwright: Command) -> None:
    """A lesson that is not there, a signature without a name."""
    assert "did you mean two?" in lickwright("sign", "tow", "--by", "Ann").err
    assert lickwright("sign", "one", "--by", " ").status == 2


def test_a_broken_file_of_signatures(lickwright: Command, course: Path) -> None:
    """It is an error of the course with its line, never a traceback."""
    (course / "proofed.toml").write_text('[one]\nby = "Ann"\nmark = \n', encoding="utf-8")
    outcome = lickwright("proof")
    assert outcome.status == 1
    assert "proofed.toml:3:1: error: proofed.toml is not TOML" in outcome.out
    assert lickwright("sign", "one", "--by", "Ann").status == 1
    assert (course / "proofed.toml").read_text(encoding="utf-8").startswith("[one]")


def test_a_change_is_a_finding_of_its_lesson(lickwright: Command, course: Path) -> None:
    """`--lesson` shows it with the lesson, not with another; it keeps nobody from signing again."""
    lickwright("sign", "one", "--by", "Ann")
    change(course, "It goes up", "It climbs")
    for given in ("one", "one.md", "lessons/one.md", str(course / "lessons" / "one.md")):
        outcome = lickwright("proof", "--lesson", given, "--only", "course")
        assert "“one” has changed since Ann signed it" in outcome.out
    assert "changed since" not in lickwright("proof", "--lesson", "two").out
    assert lickwright("sign", "lessons/one.md", "--by", "Bo").status == 0
    assert "changed since" not in lickwright("proof").out


@pytest.mark.usefixtures("course")
def test_nobody_there_to_be_asked(lickwright: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    """At the end of the input it is said what is missing, and nothing of a site."""
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    outcome = lickwright("sign", "one")
    assert outcome.status == 2
    assert "--by" in outcome.err
    assert "site" not in outcome.err
    monkeypatch.setattr("sys.stdin", io.StringIO("Ann\n"))
    assert lickwright("sign", "one").status == 0
