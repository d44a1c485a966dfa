"""``lickwright proof`` as an author and a machine use it."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Command = Callable[..., Any]
LICK = "```lick one\nkey: A major\n\nA | {bar}\n```\n"
GOOD = LICK.format(bar="5:0 - 4:2 -  3:2 - - -")
SHORT = LICK.format(bar="5:0 - 4:2 -")
MANIFEST = '[course]\ntitle = "T"\nauthor = "A"\n\n[[unit]]\ntitle = "U"\nlessons = {lessons}\n'


@pytest.fixture
def write(tmp_path: Path) -> Callable[..., None]:
    """Writes a course into ``content``: the text of its lessons by name."""

    def write(manifest: str | None = None, **lessons: str | bytes) -> None:
        names = [f"{name}.md" for name in lessons]
        (tmp_path / "content" / "lessons").mkdir(parents=True)
        text = MANIFEST.format(lessons=json.dumps(names)) if manifest is None else manifest
        if text:
            (tmp_path / "content" / "course.toml").write_text(text, encoding="utf-8")
        for name, lesson in lessons.items():
            body = lesson if isinstance(lesson, bytes) else f"# {name}\n\n{lesson}".encode()
            (tmp_path / "content" / "lessons" / f"{name}.md").write_bytes(body)

    return write


def test_a_clean_course(lickwright: Command, write: Callable[..., None]) -> None:
    """Nothing to say ends with status 0."""
    write(one=GOOD)
    outcome = lickwright("proof")
    assert outcome.status == 0, outcome


def test_an_error(lickwright: Command, write: Callable[..., None]) -> None:
    """An error is shown with its place and source line, and ends with status 1."""
    write(one=SHORT)
    outcome = lickwright("proof", "content")
    assert outcome.status == 1
    assert "lessons/one.md:6:" in outcome.out
    assert "rhythm/bar-length" in outcome.out
    assert "A | 5:0 - 4:2 -" in outcome.out


def test_json_has_the_stated_shape(lickwright: Command, write: Callable[..., None]) -> None:
    """The keys, their types and 1-based places are those that DEVELOPERS.md promises."""
    write(one=SHORT)
    report = json.loads(lickwright("proof", "--format", "json").out)
    assert set(report) == {"findings", "counts"}
    kinds = dict.fromkeys(("rule", "severity", "message", "help", "file", "lick", "address"), str)
    kinds |= dict.fromkeys(("line", "column", "end_line", "end_column"), int)
    kinds |= {"labels": list, "fix": type(None)}
    (finding,) = report["findings"]
    assert {key: type(value) for key, value in finding.items()} == kinds
    assert (finding["rule"], finding["severity"], finding["lick"]) == ("rhythm/bar-length", "error", "one")
    assert (finding["file"], finding["line"]) == ("lessons/one.md", 6)
    assert sum(report["counts"].values()) == 1


def test_strict_minds_queries(lickwright: Command, write: Callable[..., None]) -> None:
    """A query passes, and with --strict does not."""
    write(one=GOOD + "\n```licks two\n```\n")
    assert lickwright("proof").status == 0
    assert lickwright("proof", "--strict").status == 1


SLOW = (pytest.mark.slow, pytest.mark.timeout(600))
CYCLE = "```lick a\nvary: b\n1.1: 5:2\n```\n\n```lick b\nvary: a\n1.1: 5:2\n```\n"
LONG = "A | 5:0 - 4:2 -  3:2 - - -\n" * 500

BAD = {
    "no manifest": ("", {"one": GOOD}, 1),
    "manifest that is no TOML": ("[course\n", {"one": GOOD}, 1),
    "manifest without a unit": ('[course]\ntitle = "T"\nauthor = "A"\n', {}, 1),
    "manifest of wrong types": ("course = 3\nunit = 4\n", {}, 1),
    "lesson that is missing": (MANIFEST.format(lessons='["none.md"]'), {}, 1),
    "path out of the course": (MANIFEST.format(lessons='["../../secret.md"]'), {}, 1),
    "lesson not in UTF-8": (None, {"one": b"# One\n\n\xff\xfe\n"}, 1),
    "empty lesson": (None, {"one": b""}, 0),
    "block never closed": (None, {"one": GOOD.rpartition("```")[0]}, None),
    "bar of ten thousand slots": (None, {"one": LICK.format(bar="5:0 " * 10_000)}, 1),
    "line of a megabyte": (None, {"one": LICK.format(bar="5:0 " * 262_144)}, 1),
    "megabyte of prose": (None, {"one": "word " * 210_000}, 0),
    "lick of 500 bars": (None, {"one": f"```lick long\nkey: A major\n\n{LONG}```\n"}, 0),
    "circle of variations": (None, {"one": CYCLE}, 1),
    "markup and template signs": (
        None,
        {"one": "<script>alert(1)</script> {{ 7 * 7 }} {% raw %}\n" + GOOD},
        0,
    ),
    "terminal codes": (None, {"one": LICK.format(bar="5:0 \x1b[2J - \x9b31m")}, 1),
}


@pytest.mark.parametrize(
    "kind", [pytest.param(kind, marks=SLOW if "megabyte" in kind else ()) for kind in BAD]
)
def test_bad_input_is_a_finding(lickwright: Command, write: Callable[..., None], kind: str) -> None:
    """Whatever is wrong is said as a finding with a place and in the status, never by a traceback."""
    manifest, lessons, status = BAD[kind]
    write(manifest, **lessons)
    outcome = lickwright("proof")
    assert outcome.err == ""
    assert "Traceback" not in outcome.out
    assert "\x1b" not in outcome.out
    assert outcome.status in ({0, 1} if status is None else {status}), outcome.out
    report = json.loads(lickwright("proof", "--format", "json").out)
    for finding in report["findings"]:
        assert finding["file"]
        assert finding["line"] >= 1
        assert finding["column"] >= 1
    if status:
        assert any(finding["severity"] == "error" for finding in report["findings"])


def test_a_link_loop_is_a_finding(lickwright: Command, write: Callable[..., None], tmp_path: Path) -> None:
    """A lesson that is a link to itself, or out of the course, is said and not followed."""
    write(MANIFEST.format(lessons='["loop.md", "away.md"]'))
    lessons = tmp_path / "content" / "lessons"
    (lessons / "loop.md").symlink_to("loop.md")
    (tmp_path / "secret.md").write_text("# Secret\n")
    (lessons / "away.md").symlink_to(tmp_path / "secret.md")
    report = json.loads(lickwright("proof", "--format", "json").out)
    assert sum(finding["severity"] == "error" for finding in report["findings"]) == 2


def test_proof_loads_nothing_that_is_slow(write: Callable[..., None], tmp_path: Path) -> None:
    """Neither Verovio, music21, numpy nor the encoder is imported to proof a course."""
    write(one=GOOD + SHORT.replace("one", "two"))
    code = (
        "import sys\n"
        "from lickwright.cli import main\n"
        "try: main(['proof', 'content'])\n"
        "except SystemExit as ended: print('STATUS', ended.code)\n"
        "print('LOADED', *sys.modules)"
    )
    builder = str(Path(__file__).parents[2] / "builder")
    outcome = subprocess.run(
        [sys.executable, "-c", code],
        check=True,
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": builder},
    )
    assert "STATUS 1" in outcome.stdout
    loaded = {name.partition(".")[0] for name in outcome.stdout.rpartition("LOADED ")[2].split()}
    assert "lickwright" in loaded
    slow = {"verovio", "music21", "numpy", "soundfile", "jinja2", "multiprocessing", "concurrent"}
    assert loaded & slow == set()


CLASH = "```lick one\nkey: A major\n{stet}\nA | 2:3 - - - 3:2 - - -\n```\n"


def test_a_finding_offers_its_stet_and_a_standing_one_is_listed(
    lickwright: Command, write: Callable[..., None]
) -> None:
    """The sealed line that is offered, copied into the lick, stands, and is listed with its reason."""
    write(one=CLASH.format(stet=""))
    offered = next(line for line in lickwright("proof").out.splitlines() if "to let it stand:" in line)
    stet = offered.split(": ", 1)[1].replace("…", "it is meant")
    assert re.fullmatch(r'stet: harmony/unexplained 1\.1 #[0-9a-f]{4} "it is meant"', stet)
    lesson = Path("content/lessons/one.md")
    lesson.write_text("# one\n\n" + CLASH.format(stet=stet + "\n"), encoding="utf-8")
    outcome = lickwright("proof")
    assert outcome.status == 0
    listed = outcome.out.partition("Standing by stet:")[2]
    assert "harmony/unexplained" in listed
    assert "“it is meant”" in listed
    assert stet.split()[3] in listed


def test_a_fault_that_cannot_stand_offers_no_stet(lickwright: Command, write: Callable[..., None]) -> None:
    """A stet about nothing is not itself let stand."""
    write(one=CLASH.format(stet='stet: rhythm/bar-length "meant"\n').replace("2:3", "2:2"))
    out = lickwright("proof").out
    assert "stet/unused" in out
    assert "to let it stand" not in out


SOUR = LICK.format(bar="5:0 - 5:4 -  4:2 - 3:3 -")


def test_a_part_of_the_proof(lickwright: Command, write: Callable[..., None]) -> None:
    """Groups, rules and lessons narrow what is shown, and what the status says."""
    write(one=SHORT, two=SOUR.replace("lick one", "lick two"))
    assert lickwright("proof").status == 1
    narrow = lickwright("proof", "--only", "harmony", "--strict")
    assert (narrow.status, "rhythm/" in narrow.out, "harmony/unexplained" in narrow.out) == (1, False, True)
    assert lickwright("proof", "--lesson", "two", "--only", "rhythm/bar-length").status == 0
    assert lickwright("proof", "--lesson", "one.md").status == 1


@pytest.mark.parametrize(
    ("option", "name", "near"), [("--only", "harmoney", "harmony"), ("--lesson", "tow", "two")]
)
def test_a_part_that_is_not_there(
    lickwright: Command, write: Callable[..., None], option: str, name: str, near: str
) -> None:
    """A slip in a name ends with status 2, with the nearest name."""
    write(one=GOOD, two=GOOD.replace("lick one", "lick two"))
    outcome = lickwright("proof", option, name)
    assert outcome.status == 2
    assert near in outcome.err


def test_notes_are_counted_and_shown_when_asked_for(lickwright: Command, write: Callable[..., None]) -> None:
    """A note stands in the log, not on the work list."""
    write(one=GOOD.replace("key: A major\n\n", "key: A major\n"))
    assert "1 note (--notes shows the notes)" in lickwright("proof").out
    assert "syntax/missing-blank-line" not in lickwright("proof").out
    assert "syntax/missing-blank-line" in lickwright("proof", "--notes").out


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ("sarif", '"ruleId": "rhythm/bar-length"'),
        ("github", "::error file=content/lessons/one.md"),
        ("coverage", "A major"),
    ],
)
def test_other_forms(lickwright: Command, write: Callable[..., None], form: str, told: str) -> None:
    """The same findings for other readers, with the same status."""
    write(one=SHORT)
    outcome = lickwright("proof", "--format", form)
    assert outcome.status == 1
    assert told in outcome.out
