"""Queries leave as a list and come back with answers: stets, repairs, other notes."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Command = Callable[..., Any]
MANIFEST = '[course]\ntitle = "Landing"\nauthor = "A"\n\n[[unit]]\ntitle = "U"\nlessons = ["one.md"]\n'
LESSON = """# One

> ```lick quoted
> key: A major
> tempo: 90
>
> A | 5:0 - 5:4 - 4:2 - 3:3 -
>   | 2:2 - - - 3:2 - - -
> ```

```lick plain
key: A major

A | 5:0 - 5:4 - 4:2 - 3:3 -
  | 2:2 - - - 3:2 - - -
```

```lick named
A | 5:0 - 5:4 - 4:2 - 3:2 -
  names | A C# F A
```
"""


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """A course with three things to ask."""
    (tmp_path / "content" / "lessons").mkdir(parents=True)
    (tmp_path / "content" / "course.toml").write_text(MANIFEST, encoding="utf-8")
    (tmp_path / "content" / "lessons" / "one.md").write_text(LESSON, encoding="utf-8")
    return tmp_path


def ask(lickwright: Command, course: Path, *answers: str) -> str:
    """Write the list, the answers put behind its arrows in turn; return the list as it left."""
    told: str = lickwright("proof", "--format", "queries").out
    left = iter(answers)
    filled = re.sub(r"^>$", lambda _: f"> {next(left, '')}", told, flags=re.MULTILINE)
    (course / "queries.txt").write_text(filled, encoding="utf-8")
    return told


def test_a_query_has_its_addresses(lickwright: Command, course: Path) -> None:
    """The gravest first: rule, music, place, what is found, the line, what would mend it, an arrow."""
    told = ask(lickwright, course)
    assert told.startswith("Queries on Landing\n")
    assert re.search(r"^2\. harmony/unexplained · quoted 1\.4 · lessons/one\.md:7:25$", told, re.MULTILINE)
    assert "mend: 3:2: one fret lower is the root" in told
    helps = re.findall(r"^   help: (.+)$", told, re.MULTILINE)
    said = lickwright("proof", "--format", "json").out
    assert helps
    assert sorted(helps) == sorted(f["help"] for f in json.loads(said)["findings"] if f["severity"] != "note")
    assert told.count("\n>\n") + told.endswith("\n>") == 3


def test_answers_are_put_into_the_lessons(lickwright: Command, course: Path) -> None:
    """A stet goes behind the fields, with the margin of its quote; a repair and a text take the place."""
    ask(lickwright, course, "4:3", 'stet "it is meant"', "mend")
    outcome = lickwright("answer", "queries.txt")
    assert outcome.status == 0, outcome
    text = (course / "content" / "lessons" / "one.md").read_text(encoding="utf-8")
    assert re.search(
        r'> tempo: 90\n> stet: harmony/unexplained 1\.4 #[0-9a-f]{4} "it is meant"\n>\n> A \|', text
    )
    assert "```lick plain\nkey: A major\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -" in text
    assert "A | 5:0 - 5:4 - 4:3 - 3:2 -\n  names" in text
    again = lickwright("proof")
    assert "Standing by stet" in again.out
    assert "quoted" not in again.out.split("Standing by stet")[0]
    assert "plain 1.4" not in again.out


def test_what_cannot_be_done_is_said(lickwright: Command, course: Path) -> None:
    """An answer to what is no longer found changes nothing and ends with status 1."""
    ask(lickwright, course, 'stet "it is meant"')
    lickwright("answer", "queries.txt")
    before = (course / "content" / "lessons" / "one.md").read_bytes()
    outcome = lickwright("answer", "queries.txt")
    assert outcome.status == 1
    assert "no longer found" in outcome.out
    assert (course / "content" / "lessons" / "one.md").read_bytes() == before


def test_an_empty_list(lickwright: Command, course: Path) -> None:
    """Nothing answered, nothing done."""
    ask(lickwright, course)
    assert lickwright("answer", "queries.txt").out == "0 of 0 answers put into the lessons\n"


def test_a_list_that_is_none(lickwright: Command, course: Path) -> None:
    """Bytes that are no text are said so."""
    (course / "queries.txt").write_bytes(b"\xff\xfe")
    assert lickwright("answer", "queries.txt").status == 2


@pytest.mark.parametrize("said", ["stet", "stet because", 'stet ""', "mend it, please", "yes", "?", "5:0 ok"])
def test_words_do_not_get_into_the_music(lickwright: Command, course: Path, said: str) -> None:
    """What reads neither as a stet, nor as a mend, nor as what is marked is refused, and nothing written."""
    ask(lickwright, course, "", said)
    before = (course / "content" / "lessons" / "one.md").read_bytes()
    outcome = lickwright("answer", "queries.txt")
    assert outcome.status == 1
    assert "0 of 1 answers" in outcome.out
    assert (course / "content" / "lessons" / "one.md").read_bytes() == before


@pytest.mark.parametrize("said", ["MEND", "Mend.", 'Stet: "meant"'])
def test_answers_are_read_kindly(lickwright: Command, course: Path, said: str) -> None:
    """Case, a full stop and a colon do not matter."""
    ask(lickwright, course, "", said)
    assert lickwright("answer", "queries.txt").status == 0


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\r\n", "\r", "\n"])
@pytest.mark.parametrize("last", [True, False])
def test_a_lesson_keeps_its_line_ends(
    lickwright: Command, course: Path, mark: bytes, end: str, *, last: bool
) -> None:
    """Byte order mark, line ends and the end of the file stay; only what was answered differs."""
    file = course / "content" / "lessons" / "one.md"
    text = LESSON if last else LESSON.removesuffix("\n")
    file.write_bytes(mark + text.replace("\n", end).encode())
    ask(lickwright, course, "4:3", 'stet "it is meant"', "mend")
    assert lickwright("answer", "queries.txt").status == 0
    data = file.read_bytes()
    assert data.startswith(mark)
    written = data.removeprefix(mark).decode()
    seal = re.search(r"#([0-9a-f]{4}) ", written)
    assert seal is not None
    stet = f'> stet: harmony/unexplained 1.4 #{seal[1]} "it is meant"\n'
    expected = text.replace("> tempo: 90\n", f"> tempo: 90\n{stet}")
    expected = expected.replace("4:2 - 3:2 -\n  names", "4:3 - 3:2 -\n  names")
    expected = expected.replace("\nA | 5:0 - 5:4 - 4:2 - 3:3 -", "\nA | 5:0 - 5:4 - 4:2 - 3:2 -")
    assert written == expected.replace("\n", end)


def test_mixed_line_ends_are_not_evened_out(lickwright: Command, course: Path) -> None:
    """One line of another kind stays the only one."""
    file = course / "content" / "lessons" / "one.md"
    file.write_bytes(LESSON.replace("\n", "\r\n").replace("# One\r\n", "# One\n").encode())
    ask(lickwright, course, "", 'stet "it is meant"')
    assert lickwright("answer", "queries.txt").status == 0
    data = file.read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n") + 1 == LESSON.count("\n") + 1


@pytest.mark.parametrize(
    "text", ["", "# A shopping list\n\n> milk\n", "Queries\n", "Queries on Landing\n\n1. gone\n> mend\n"]
)
def test_another_file_is_no_list(lickwright: Command, course: Path, text: str) -> None:
    """A file without a query in it is found to be none, once, and nothing is written."""
    (course / "queries.txt").write_text(text, encoding="utf-8")
    before = (course / "content" / "lessons" / "one.md").read_bytes()
    outcome = lickwright("answer", "queries.txt")
    assert outcome.status == 1
    assert outcome.out.count("building/no-query") == 1
    assert "queries.txt:1:1: error: this is no list of queries" in outcome.out
    assert (course / "content" / "lessons" / "one.md").read_bytes() == before


def test_a_list_that_asks_nothing(lickwright: Command, course: Path) -> None:
    """What a clean course sends out may come back as it is."""
    (course / "content" / "lessons" / "one.md").write_text("# One\n\nWords.\n", encoding="utf-8")
    told = ask(lickwright, course)
    assert told.endswith("None.\n")
    outcome = lickwright("answer", "queries.txt")
    assert (outcome.status, outcome.out) == (0, "0 of 0 answers put into the lessons\n")


def test_an_answer_that_lost_its_query(lickwright: Command, course: Path) -> None:
    """Its head was cut: it is said, by its line; the others are put in."""
    ask(lickwright, course, "4:3", "mend", "mend")
    file = course / "queries.txt"
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    head = next(number for number, line in enumerate(lines) if line.startswith("2. "))
    del lines[head]
    file.write_text("".join(lines), encoding="utf-8")
    arrow = [number for number, line in enumerate(lines, 1) if line.startswith("> ")][1]
    outcome = lickwright("answer", "queries.txt")
    assert outcome.status == 1
    assert f"queries.txt:{arrow}:1: error: this answer stands under no query" in outcome.out
    assert "2 of 2 answers put" in outcome.out


def test_what_no_answer_can_mend_is_not_asked(lickwright: Command, course: Path) -> None:
    """A promise stands in the manifest: it is named at the end, without an arrow; the others keep theirs."""
    manifest = course / "content" / "course.toml"
    manifest.write_text(MANIFEST + "\n[promises]\nkeys = 5\n", encoding="utf-8")
    told = ask(lickwright, course, *("mend",) * 3)
    assert "course/promise" not in told
    assert told.count("\n>") == 3
    named = r"^To be mended .*\n  course\.toml:\d+:\d+: the course promises 5 keys"
    assert re.search(named, told, re.MULTILINE)
    assert len(re.findall(r"^\d+\. ", told, re.MULTILINE)) == 3
    assert "is no list" not in lickwright("answer", "queries.txt").err


def test_a_list_of_promises_alone(lickwright: Command, course: Path) -> None:
    """Nothing is asked, and it is a list still."""
    lesson = course / "content" / "lessons" / "one.md"
    lesson.write_text("# One\n\n```lick plain\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n```\n", encoding="utf-8")
    manifest = course / "content" / "course.toml"
    manifest.write_text(MANIFEST + "\n[promises]\nkeys = 5\n", encoding="utf-8")
    told = ask(lickwright, course)
    assert "\nNone.\n" in told
    assert "the course promises 5 keys" in told
    assert lickwright("answer", "queries.txt").status == 0
