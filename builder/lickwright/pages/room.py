"""The proof room as read: a course of licks with one fault each, its sections and what is found in them.

A side-head of a lesson that is a rule's id opens a section. What cannot stand in a course that can be read
stands in a folder of ``faults``; the section names the folder.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from importlib.resources import files
from pathlib import Path

from lickwright.checks.catalogue import rules
from lickwright.checks.proof import proof
from lickwright.findings import Finding
from lickwright.model.course import Course, Lesson
from lickwright.model.timeline import Book, resolve
from lickwright.pages.edition import Edition
from lickwright.pages.theme import Theme
from lickwright.reading.course import read_course

FOLDER = "proof-room"
"""Of its pages in the site."""
SIDE_HEAD = re.compile(r"## (\S+)\s*")
FAULTS = re.compile(r"`faults/([a-z-]+)`")
MENDED, STANDS = "-mended", "-stands"
RIGHT = (MENDED, STANDS)
"""How the names of licks end that are in order: as they were meant; alike, and rightly left alone."""


@dataclass(frozen=True, slots=True)
class Section:
    """What the room holds of one rule.

    Attributes:
        rule: Its id.
        first, last: Lines of the lesson's text, from 0, ``last`` left out.
        found: What is found, each with the edition it is found in.
    """

    rule: str
    lesson: Lesson
    first: int
    last: int
    found: tuple[tuple[Edition, Finding], ...]

    @property
    def cut(self) -> int:
        """The line on which the blocks begin that stand behind the last finding of the section."""
        lines = (f.span.place[0] for _, f in self.found if f.span.source.path == self.lesson.source.path)
        told = max(lines, default=self.last)
        fences = (p.line for p in self.lesson.blocks if told <= p.line < self.last)
        return min(fences, default=self.last)


@dataclass(frozen=True, slots=True)
class Room:
    """The room.

    Attributes:
        edition: The course with all that is found in it.
        faults: The courses beside it by their folders' names.
    """

    edition: Edition
    faults: Mapping[str, Edition]

    def sections(self, lesson: Lesson) -> Iterator[Section]:
        """Yield the sections of a lesson."""
        lines = lesson.source.text.split("\n")
        found = ((k, SIDE_HEAD.fullmatch(line)) for k, line in enumerate(lines))
        heads = [(k, match[1]) for k, match in found if match and match[1] in rules()]
        ends = [*(k for k, _ in heads), len(lines)]
        for (first, rule), last in zip(heads, ends[1:], strict=True):
            yield self._section(rule, lesson, first, last)

    def _section(self, rule: str, lesson: Lesson, first: int, last: int) -> Section:
        here = [
            (self.edition, f)
            for f in self.edition.findings
            if f.span.source.path == lesson.source.path and first < f.span.place[0] <= last
        ]
        text = "\n".join(lesson.source.text.split("\n")[first:last])
        for name in dict.fromkeys(FAULTS.findall(text)):
            beside = self.faults[name]
            here += [(beside, f) for f in beside.findings if f.rule == rule]
        return Section(rule, lesson, first, last, tuple(here))


def room_folder() -> Path:
    """Return where the room lies: beside the code, it travels with the builder."""
    return Path(str(files("lickwright") / "proof_room"))


def read_room(theme: Theme, *, sound: bool = False) -> Room:
    """Read, resolve and proof the room and the courses beside it; ``sound``: whether the room has any."""
    folder = room_folder()
    course, _ = read_course(folder)
    if course is None:
        raise FileNotFoundError(folder / "course.toml")
    beside = sorted(path for path in (folder / "faults").iterdir() if path.is_dir())
    # What has no manifest is shown with the room's own.
    bare = replace(course, units=())
    faults = {path.name: _edition(path, bare, theme) for path in beside}
    return Room(replace(_edition(folder, course, theme), sound=sound), faults)


def _edition(folder: Path, bare: Course, theme: Theme) -> Edition:
    course, findings = read_course(folder)
    if course is None:
        return Edition(bare, Book(), theme, tuple(findings), sound=False, folder=FOLDER)
    book, unresolved = resolve(course)
    found = proof(course, book, (*findings, *unresolved))
    return Edition(course, book, theme, found.findings, found.standing, sound=False, folder=FOLDER)
