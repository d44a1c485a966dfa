"""What a course covers."""

from __future__ import annotations

from pathlib import Path

from lickwright.checks.coverage import Coverage, cover
from lickwright.checks.lessons import has_heading, list_prose
from lickwright.model.course import Lesson
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source

MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"
tempo = 90

[[unit]]
title = "One"
lessons = ["first.md", "second.md", "third.md"]
drafts = ["draft.md"]
"""
LESSONS = {
    "first": (
        "# First\n\n```lick a\nposition: 2\n\nA | 4:2 h 4:4 - - - - - -\n```\n\n"
        "```lick b\nA | 5:0 - - - - - - -\n```\n"
    ),
    "second": "# Second\n\nNo lick, but a word of hammer-ons.\n",
    "third": "# Third\n\n```lick c\nkey: D major\ntempo: 130\n\nD | pos5[3:7b9] - 4:0 s 4:2 - - - -\n```\n",
    "draft": "# Draft\n\n```lick d\nkey: E major\n\nE | 2:t12 - - - - - - -\n```\n",
}


def _cover(folder: Path) -> Coverage:
    (folder / "lessons").mkdir()
    (folder / "course.toml").write_text(MANIFEST, "utf-8")
    for name, text in LESSONS.items():
        (folder / "lessons" / f"{name}.md").write_text(text, "utf-8")
    course, _ = read_course(folder)
    assert course is not None
    return cover(course, resolve(course)[0])


def test_the_matrix(tmp_path: Path) -> None:
    """Techniques, keys, positions and tempi by lesson; the draft does not count."""
    coverage = _cover(tmp_path)
    assert coverage.lessons == ("First", "Second", "Third")
    assert [(row.kind, row.name, row.licks) for row in coverage.rows] == [
        ("technique", "hammer-on", (1, 0, 0)),
        ("technique", "slide", (0, 0, 1)),
        ("technique", "bend", (0, 0, 1)),
        ("key", "A major", (2, 0, 0)),
        ("key", "D major", (0, 0, 1)),
        ("position", "position 2", (1, 0, 0)),
        ("position", "position 5", (0, 0, 1)),
        ("tempo", "80 to 99", (2, 0, 0)),
        ("tempo", "120 to 139", (0, 0, 1)),
    ]


def test_sums_and_words(tmp_path: Path) -> None:
    """A row knows its sum, its first lesson, and where its technique is first spoken of."""
    hammer, slide, _ = _cover(tmp_path).of("technique")
    assert (hammer.total, hammer.first, hammer.lessons, hammer.spoken) == (1, 0, 1, 1)
    assert (slide.first, slide.spoken) == (2, None)


def test_the_curve(tmp_path: Path) -> None:
    """The hardest lick of each lesson; a lesson without a lick has none."""
    assert [step and step.lick for step in _cover(tmp_path).curve] == ["a", None, "c"]


def _lesson(text: str) -> Lesson:
    return read_lesson(Source("lessons/one.md", text), "one")[0]


TEXT = (
    "Words.\n\n```lick a\ntitle: Bend\n\nA | 5:0 - - - - - - -\n```\n\n"
    "````text\n# no\n```\nstill\n````\n\nMore.\n"
)


def test_prose_is_what_stands_outside_of_fences() -> None:
    """Music is none; an ordinary fence counts where it is asked for, whatever fences it shows."""
    assert list_prose(_lesson(TEXT)) == "Words.\n\n\n\nMore."
    assert list_prose(_lesson(TEXT), code=True) == "Words.\n\n\n# no\n```\nstill\n\nMore."


def test_headings() -> None:
    """Both forms of Markdown, and none inside a fence."""
    assert has_heading(_lesson("Words\n=====\n"))
    assert has_heading(_lesson("Words.\n\n## Later\n"))
    assert not has_heading(_lesson(TEXT))
