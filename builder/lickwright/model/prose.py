"""The words of a lesson: its text without the blocks of music."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lickwright.model.course import Lesson

_MARK = re.compile(r"(.*?)(`{3,}|~{3,})")


def prose_lines(lesson: Lesson) -> Iterator[tuple[int, str]]:
    """Yield the lines of a lesson that stand in no block of music, each with its number from 1."""
    opens = {placed.line for placed in lesson.blocks}
    lines = lesson.source.text.split("\n")
    closing: re.Pattern[str] | None = None
    for number, line in enumerate(lines):
        if closing is not None:
            if closing.match(line):
                closing = None
            continue
        found = _MARK.match(line) if number in opens else None
        if found is not None:
            closing = re.compile(rf"[\s>]*{re.escape(found[2])}{re.escape(found[2][0])}*\s*$")
            continue
        yield number + 1, line


def paragraphs(lesson: Lesson) -> tuple[str, ...]:
    """Return the paragraphs of a lesson, the blanks in each evened out: where a line breaks says nothing."""
    text = "\n".join(line for _, line in prose_lines(lesson))
    parts = (" ".join(part.split()) for part in re.split(r"\n\s*\n", text))
    return tuple(part for part in parts if part)
