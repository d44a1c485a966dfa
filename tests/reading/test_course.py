"""A course from its folder: every file that can be read is, whatever is wrong with the others."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from lickwright.model.strike import Strike
from lickwright.reading.course import read_course

if TYPE_CHECKING:
    from pathlib import Path

    from lickwright.findings import Finding

MANIFEST = """[course]
title = "T"
author = "A"

[[unit]]
title = "U"
lessons = [{lessons}]
"""
LICK = "```lick {name}\nA | 5:0 5:2 5:4 5:2 5:0 5:2 5:4 5:2\n```\n"


def write(folder: Path, lessons: dict[str, str | bytes], manifest: str | None = None) -> Path:
    """Write a course and return its folder."""
    (folder / "lessons").mkdir(exist_ok=True)
    for name, text in lessons.items():
        data = text if isinstance(text, bytes) else text.encode()
        (folder / "lessons" / name).write_bytes(data)
    listed = ", ".join(f'"{name}"' for name in lessons)
    (folder / "course.toml").write_text(manifest or MANIFEST.format(lessons=listed))
    return folder


def say(findings: tuple[Finding, ...]) -> list[str]:
    """Return file, line, column and rule of each finding."""
    places = [(f.span.source.path, *f.span.place, f.rule) for f in findings]
    return [f"{path}:{line}:{column} {rule}" for path, line, column, rule in places]


def test_a_course_in_the_order_of_study(tmp_path: Path) -> None:
    """Units, lessons, drafts, titles and blocks."""
    manifest = MANIFEST.format(lessons='"b.md", "a.md"') + 'drafts = ["c.md"]\n'
    texts = {"a.md": "# Alpha\n\n" + LICK.format(name="one"), "b.md": "No heading", "c.md": "# Draft"}
    course, findings = read_course(write(tmp_path, texts, manifest))
    assert course is not None
    assert say(findings) == []
    assert [lesson.title for lesson in course.lessons] == ["B", "Alpha"]
    assert [(lesson.name, lesson.draft) for lesson in course.drafts] == [("c", True)]
    assert list(course.licks) == ["one"]
    assert dict(course.places)["course.title"].text == '"T"'


def test_no_manifest(tmp_path: Path) -> None:
    """There is nothing to read."""
    course, findings = read_course(tmp_path)
    assert course is None
    assert say(findings) == ["course.toml:1:1 course/manifest-missing"]


def test_a_manifest_that_is_no_toml_leaves_the_lessons_to_be_read(tmp_path: Path) -> None:
    """The faults of the lessons are reported in the same run."""
    folder = write(tmp_path, {"a.md": "```lick x\nA | 5h7\n```\n"}, "[course\n")
    course, findings = read_course(folder)
    assert course is None
    assert say(findings) == ["course.toml:1:8 course/manifest", "lessons/a.md:2:5 syntax/habit"]


def test_crlf_and_a_byte_order_mark_change_nothing(tmp_path: Path) -> None:
    """Line ends of another system read as LF."""
    text = "\ufeff# T\r\n\r\n" + LICK.format(name="one").replace("\n", "\r\n")
    course, findings = read_course(write(tmp_path, {"a.md": text}))
    assert course is not None
    assert say(findings) == []
    assert course.lessons[0].title == "T"
    assert "\r" not in course.lessons[0].source.text


def test_a_file_that_is_not_utf8(tmp_path: Path) -> None:
    """One finding at its first bad byte; the other files are read, and its names are known."""
    bad = b"# T\n\nfine \xc3\xa9 bad \xff\n\n```lick x\nA | 5h7\n```\n"
    course, findings = read_course(write(tmp_path, {"a.md": bad, "b.md": "```lick y\nA | 5h7\n```\n"}))
    assert course is not None
    assert say(findings) == ["lessons/a.md:3:12 course/encoding", "lessons/b.md:2:5 syntax/habit"]
    assert "line 3" in findings[0].message
    assert list(course.licks) == ["x", "y"]


def test_a_manifest_that_is_not_utf8(tmp_path: Path) -> None:
    """It is read as far as it can be."""
    folder = write(tmp_path, {"a.md": "# A"})
    (folder / "course.toml").write_bytes(MANIFEST.format(lessons='"a.md"').encode() + b"# \xff\n")
    course, findings = read_course(folder)
    assert course is not None
    assert say(findings) == ["course.toml:8:3 course/encoding"]


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("b.md", "course/missing-file"),
        ("../course.toml", "course/path"),
        ("/etc/passwd", "course/path"),
        ("..\\\\a.md", "course/path"),
        ("a.md\\u0000", "course/missing-file"),
        ("", "course/manifest"),
    ],
)
def test_lessons_that_are_not_there(tmp_path: Path, name: str, rule: str) -> None:
    """Each is a finding at its name in the manifest."""
    folder = write(tmp_path, {"a.md": "# A"}, MANIFEST.format(lessons=f'"a.md", "{name}"'))
    course, findings = read_course(folder)
    assert course is not None
    assert [lesson.name for lesson in course.lessons] == ["a"]
    assert [finding.rule for finding in findings] == [rule]
    assert findings[0].span.place[0] == 7


def test_the_nearest_file_is_offered(tmp_path: Path) -> None:
    """A misspelt file has exactly one right form."""
    folder = write(tmp_path, {"gangplank.md": "# A"}, MANIFEST.format(lessons='"gang-plank.md"'))
    _, findings = read_course(folder)
    missing = next(finding for finding in findings if finding.rule == "course/missing-file")
    assert missing.fix is not None
    assert missing.fix.edits[0].text == '"gangplank.md"'


def test_links_out_of_the_course_and_in_circles(tmp_path: Path) -> None:
    """A link may not lead outside; a loop is a file that cannot be read."""
    outside = tmp_path / "outside.md"
    outside.write_text("# Secret")
    folder = tmp_path / "course"
    folder.mkdir()
    write(folder, {"a.md": "# A"}, MANIFEST.format(lessons='"a.md", "out.md", "loop.md", "folder.md"'))
    (folder / "lessons" / "out.md").symlink_to(outside)
    (folder / "lessons" / "loop.md").symlink_to(folder / "lessons" / "loop.md")
    (folder / "lessons" / "folder.md").mkdir()
    course, findings = read_course(folder)
    assert course is not None
    assert say(findings) == [
        "course.toml:7:20 course/path",
        "lessons/folder.md:1:1 course/unreadable-file",
        "lessons/loop.md:1:1 course/unreadable-file",
    ]


def test_a_lessons_folder_that_is_a_loop(tmp_path: Path) -> None:
    """Nothing is read, and nothing raises."""
    (tmp_path / "course.toml").write_text(MANIFEST.format(lessons='"a.md"'))
    (tmp_path / "lessons").symlink_to(tmp_path / "lessons")
    course, findings = read_course(tmp_path)
    assert course is not None
    assert [finding.rule for finding in findings] == ["course/missing-file"]


def test_twice_listed_and_not_listed(tmp_path: Path) -> None:
    """A lesson is listed once; a file that no unit lists is mentioned."""
    folder = write(tmp_path, {"a.md": "# A", "b.md": "# B"}, MANIFEST.format(lessons='"a.md", "a.md"'))
    _, findings = read_course(folder)
    assert say(findings) == [
        "course.toml:7:20 course/lesson-twice",
        "lessons/b.md:1:1 course/unlisted-lesson",
    ]


def test_a_name_used_twice(tmp_path: Path) -> None:
    """Names are unique over lessons and kinds; the second is the fault, the first is shown."""
    texts = {"a.md": LICK.format(name="one"), "b.md": "# B\n\n```progression one\nA | D\n```\n"}
    _, findings = read_course(write(tmp_path, texts))
    assert say(findings) == ["lessons/b.md:3:16 course/duplicate-name"]
    assert findings[0].labels[0].span.place == (1, 9)


def test_takes(tmp_path: Path) -> None:
    """A recording must be there, and in the course."""
    lick = "```lick {}\ntake: {} from 1 s\n\nA | 5:0\n```\n"
    text = lick.format("a", "takes/a.wav") + lick.format("b", "takes/b.wav") + lick.format("c", "../c.wav")
    folder = write(tmp_path, {"a.md": text})
    (folder / "takes").mkdir()
    (folder / "takes" / "a.wav").write_bytes(b"")
    _, findings = read_course(folder)
    assert say(findings) == ["lessons/a.md:7:7 course/missing-file", "lessons/a.md:12:7 course/path"]


def test_a_variation_has_the_strings_of_its_base(tmp_path: Path) -> None:
    """A change may name the seventh string when the base has seven."""
    base = "```lick seven\ntuning: B1 E2 A2 D3 G3 B3 E4\n\nA | 7:5\n```\n"
    other = "```lick {}\nvary: {}\n1.1: 7:{}\n```\n"
    text = other.format("b", "a", 6) + other.format("a", "seven", 7) + base + other.format("c", "nothing", 3)
    course, findings = read_course(write(tmp_path, {"a.md": text}))
    assert course is not None
    assert say(findings) == ["lessons/a.md:16:6 syntax/string"]
    assert [len(course.licks[name].changes) for name in "abc"] == [1, 1, 0]


def test_a_variation_has_the_shapes_of_its_base(tmp_path: Path) -> None:
    """A chord named in the base may be used in a change, and may be named anew."""
    base = "```lick base\nshape G: 6:3+5:2\nshape D: 4:0+3:2\n\nA | G D\n```\n"
    text = "```lick {}\nvary: {}\n{}1.1: G!\n1.2: {}\n```\n"
    first = text.format("one", "base", "", "D")
    second = text.format("two", "one", "shape G: 6:3+4:0\n", "Dm")
    course, findings = read_course(write(tmp_path, {"a.md": second + first, "b.md": base}))
    assert course is not None
    assert say(findings) == ["lessons/a.md:5:6 syntax/slot"]
    strike = course.licks["one"].changes[0].to
    assert isinstance(strike, Strike)
    assert ([note.fret for note in strike.notes], strike.shape, strike.accent) == ([3, 2], "G", True)
    again = course.licks["two"].changes[0].to
    assert isinstance(again, Strike)
    assert [note.string for note in again.notes] == [6, 4]
    assert course.licks["one"].shapes == ()


def test_variations_in_a_circle_end(tmp_path: Path) -> None:
    """The circle itself is judged elsewhere; reading comes to an end."""
    text = "```lick a\nvary: b\n```\n```lick b\nvary: a\n```\n"
    course, findings = read_course(write(tmp_path, {"a.md": text}))
    assert course is not None
    assert say(findings) == []


def test_strings_of_the_course_guitar(tmp_path: Path) -> None:
    """Four strings in the manifest are four in every lick."""
    manifest = MANIFEST.format(lessons='"a.md"') + '[guitar]\ntuning = "E1 A1 D2 G2"\n'
    folder = write(tmp_path, {"a.md": "```lick a\nA | 5:0 4:0\n```\n"}, manifest)
    _, findings = read_course(folder)
    assert say(findings) == ["lessons/a.md:2:5 syntax/string"]
    assert findings[0].message == "string 5 does not exist: strings run from 1 to 4"


def test_reading_twice_gives_the_same(tmp_path: Path) -> None:
    """Same folder, same values, same findings."""
    folder = write(tmp_path, {"a.md": LICK.format(name="one") + "\n[x](lick:)\n", "b.md": "~~~lick\n"})
    assert read_course(folder) == read_course(folder)


def test_a_link_that_leads_nowhere_is_no_lesson(tmp_path: Path) -> None:
    """It is missed at its name in the manifest, and the path that comes back inside is said plainly."""
    folder = write(tmp_path, {"a.md": "# A"}, MANIFEST.format(lessons='"b.md", "../lessons/a.md"'))
    (folder / "lessons" / "b.md").symlink_to(folder / "nope")
    _, findings = read_course(folder)
    assert say(findings) == ["course.toml:7:12 course/missing-file", "course.toml:7:20 course/path"]
    assert findings[1].fix is not None
    assert findings[1].fix.edits[0].text == '"a.md"'


def test_pictures_and_links_that_lead_nowhere(tmp_path: Path) -> None:
    """Each is found at its address; those that lead somewhere are left alone."""
    text = (
        "# A\n\n## The first step\n\n![x](pictures/none.png) ![y](pictures/here.png)\n[gone](nowhere.md)\n"
        "[o](other.html)\n![up](../../etc/passwd)\n[n](#nope)\n[f](a.md#the-first-step)\n"
        "![l](pictures/loop/course.toml) ![s](pictures/self.png)\n[w](https://example.org) [k](lick:one)\n\n"
    )
    folder = write(tmp_path, {"a.md": text + LICK.format(name="one")})
    (folder / "pictures").mkdir()
    (folder / "pictures" / "here.png").write_bytes(b"")
    (folder / "pictures" / "loop").symlink_to(folder)
    (folder / "pictures" / "self.png").symlink_to(folder / "pictures" / "self.png")
    _, findings = read_course(folder)
    assert say(findings) == [
        "lessons/a.md:5:6 course/missing-picture",
        "lessons/a.md:6:8 course/dead-link",
        "lessons/a.md:7:5 course/dead-link",
        "lessons/a.md:8:7 course/path",
        "lessons/a.md:9:5 course/unknown-anchor",
        "lessons/a.md:11:6 course/missing-picture",
        "lessons/a.md:11:38 course/missing-picture",
    ]
