"""A whole course from its folder: the only module here that opens files."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path, PurePosixPath
from posixpath import normpath
from typing import TYPE_CHECKING

from lickwright.findings import Label
from lickwright.instrument.tuning import STANDARD
from lickwright.model.blocks import Chorus, Lick, Progression, ScaleBlock
from lickwright.model.course import Course, Lesson, Unit
from lickwright.reading.collector import Collector, quote
from lickwright.reading.lesson import Base, read_lesson
from lickwright.reading.manifest import NAME, Listed, Manifest, read_manifest
from lickwright.reading.nearest import find_nearest
from lickwright.reading.pointers import Pointer, check_pointers, find_pointers
from lickwright.reading.signatures import NAME as PROOFED
from lickwright.reading.signatures import read_signatures
from lickwright.text import Source, Span

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.findings import Finding
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.fields import Shape

LESSONS = "lessons"
_TRIES = (OSError, RuntimeError, ValueError)
"""What looking up a path may raise: not there, a loop of links, a name no system takes."""


def read_course(folder: Path) -> tuple[Course | None, tuple[Finding, ...]]:
    """Read a course: its manifest and every lesson that it lists.

    Args:
        folder: The course folder.

    Returns:
        The course as far as it could be read, None when there is no readable manifest;
        and every fault found, in the order of file and place.
    """
    reader = _CourseReader(folder)
    course = reader.read()
    return course, tuple(sorted(reader.findings, key=lambda finding: finding.sort_key))


class _CourseReader:
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.findings: list[Finding] = []
        self.strings = STANDARD.count
        self.guitar: Guitar | None = None
        self.pointers: dict[str, tuple[Pointer, ...]] = {}

    def read(self) -> Course | None:
        source = self.load(NAME)
        if source is None:
            return None
        manifest, findings = read_manifest(source)
        self.findings += findings
        if manifest is None:
            for file in self.list_lessons():
                self.read_file(PurePosixPath(file).stem, f"{LESSONS}/{file}", draft=False)
            return None
        self.guitar = manifest.settings.guitar
        self.strings = self.guitar.tuning.count
        units = self.read_units(manifest, source)
        course = Course(
            title=manifest.title or self.folder.resolve().name,
            author=manifest.author,
            settings=manifest.settings,
            units=units,
            edition=manifest.edition,
            language=manifest.language,
            licence=manifest.licence,
            promises=manifest.promises,
            manifest=source,
            places=manifest.places,
        )
        course = self.read_variations(course)
        course = self.read_signatures(course)
        self.check_names(course)
        self.check_takes(course)
        for lesson in (*course.lessons, *course.drafts):
            pointers = self.pointers[lesson.source.path]
            self.findings += check_pointers(lesson, pointers, course, self.folder)
        return course

    # Files

    def load(self, path: str) -> Source | None:
        """Return a text file of the course; None when it cannot be read, which is reported."""
        nothing = Source(path, "")
        found = Collector(nothing)
        try:
            data = (self.folder / path).read_bytes()
        except FileNotFoundError:
            if path == NAME:
                hint = f"a course is a folder with {NAME} and lessons/; lickwright start makes one"
                found.add(
                    "course/manifest-missing", f"there is no {NAME} here", nothing.span(0, 0), hint=hint
                )
            else:
                found.add("course/missing-file", f"there is no lesson {path}", nothing.span(0, 0))
        except _TRIES as error:
            why = error.strerror if isinstance(error, OSError) and error.strerror else "a loop of links"
            message = f"{path} cannot be read: {why.lower()}"
            found.add("course/unreadable-file", message, nothing.span(0, 0))
        else:
            return self.decode(path, data)
        self.findings += found.findings
        return None

    def decode(self, path: str, data: bytes) -> Source:
        """Return the text of a file, reporting the first byte that is not UTF-8."""
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            before = data[: error.start].decode("utf-8-sig", "replace")
            start = len(_unify_line_ends(before))
            source = Source(path, _unify_line_ends(data.decode("utf-8-sig", "replace")))
            found = Collector(source)
            line = source.line_column(start)[0]
            message = f"{path} is not UTF-8: its first bad byte is on line {line}"
            hint = "save the file as UTF-8"
            span = source.span(start, min(start + 1, len(source.text)))
            found.add("course/encoding", message, span, hint=hint)
            self.findings += found.findings
            return source
        return Source(path, _unify_line_ends(text))

    def list_lessons(self) -> list[str]:
        """Return the names of the lesson files that are there."""
        try:
            return sorted(file.name for file in (self.folder / LESSONS).iterdir() if file.suffix == ".md")
        except _TRIES:
            return []

    # Lessons

    def read_units(self, manifest: Manifest, source: Source) -> tuple[Unit, ...]:
        found = Collector(source)
        here = self.list_lessons()
        seen: dict[str, Span] = {}
        units = tuple(
            Unit(
                unit.title,
                self.read_listed(unit.lessons, here, seen, found, draft=False),
                self.read_listed(unit.drafts, here, seen, found, draft=True),
            )
            for unit in manifest.units
        )
        for file in here:
            if file not in seen:
                lesson = Source(f"{LESSONS}/{file}", "")
                alone = Collector(lesson)
                hint = f"list it in {NAME} under lessons or drafts, or take the file away"
                alone.add("course/unlisted-lesson", f"no unit lists {file}", lesson.span(0, 0), hint=hint)
                self.findings += alone.findings
        self.findings += found.findings
        return units

    def read_listed(
        self,
        files: Iterable[Listed],
        here: list[str],
        seen: dict[str, Span],
        found: Collector,
        *,
        draft: bool,
    ) -> tuple[Lesson, ...]:
        lessons: list[Lesson] = []
        for item in files:
            if item.file in seen:
                labels = (Label(seen[item.file], "first listed here"),)
                found.add(
                    "course/lesson-twice", f"{quote(item.file)} is listed twice", item.span, labels=labels
                )
                continue
            seen[item.file] = item.span
            if not self.is_inside(f"{LESSONS}/{item.file}", item.file):
                hint = "a lesson is a file in the course's own lessons/"
                back = find_way_back(item.file)
                if back in here:
                    message = (
                        f"{quote(item.file)} leads out of {LESSONS}/ and back: plain {back} was expected"
                    )
                    found.add("course/path", message, item.span, hint=hint, fix=f'"{back}"')
                    seen.setdefault(back, item.span)
                else:
                    found.add("course/path", f"{quote(item.file)} leaves the course", item.span, hint=hint)
                continue
            if not self.is_there(f"{LESSONS}/{item.file}"):
                near = find_nearest(item.file, here)
                hint = f"did you mean {near}?" if near else f"lessons are files in {LESSONS}/"
                fix = f'"{near}"' if near else None
                found.add(
                    "course/missing-file",
                    f"there is no lesson {quote(item.file)}",
                    item.span,
                    hint=hint,
                    fix=fix,
                )
                continue
            lesson = self.read_file(item.file.removesuffix(".md"), f"{LESSONS}/{item.file}", draft=draft)
            if lesson is not None:
                lessons.append(lesson)
        return tuple(lessons)

    def read_file(self, name: str, path: str, *, draft: bool) -> Lesson | None:
        before = len(self.findings)
        source = self.load(path)
        if source is None:
            return None
        garbled = len(self.findings) > before
        lesson, findings = read_lesson(source, name, draft=draft, strings=self.strings, guitar=self.guitar)
        if not garbled:  # of a file in another encoding nothing else is worth saying
            self.findings += findings
        self.pointers[path] = find_pointers(lesson.source)
        return lesson

    def is_inside(self, path: str, written: str) -> bool:
        """Tell whether a path stays in the course, links followed."""
        if "\\" in written or PurePosixPath(written).is_absolute() or ".." in PurePosixPath(written).parts:
            return False
        try:
            return (self.folder / path).resolve().is_relative_to(self.folder.resolve())
        except _TRIES:
            return True  # a loop stays where it is; reading it tells

    def is_there(self, path: str) -> bool:
        """Tell whether something of that name is there, be it a link in a circle; a dead link is nothing."""
        file = self.folder / path
        try:
            file.stat()
        except (FileNotFoundError, NotADirectoryError):
            return False
        except OSError:  # a circle of links, or a folder that may not be entered
            return file.is_symlink()
        except _TRIES:
            return False
        return True

    # The whole

    def read_variations(self, course: Course) -> Course:
        """Read again the lessons with variations of a lick that has shapes, or strings of its own."""
        plain = Base(self.strings)
        licks = course.licks
        bases = {name: _find_base(lick, licks, self.strings) for name, lick in licks.items() if lick.vary}
        bases = {name: base for name, base in bases.items() if base != plain}
        if not bases:
            return course

        def renew(lesson: Lesson) -> Lesson:
            names = {placed.block.name for placed in lesson.blocks if isinstance(placed.block, Lick)}
            return self.read_again(lesson, bases) if names & bases.keys() else lesson

        units = tuple(
            Unit(unit.title, tuple(map(renew, unit.lessons)), tuple(map(renew, unit.drafts)))
            for unit in course.units
        )
        return replace(course, units=units)

    def read_again(self, lesson: Lesson, bases: dict[str, Base]) -> Lesson:
        """Read a lesson now that the bases of its variations are known."""
        path = lesson.source.path
        here = [finding for finding in self.findings if finding.span.source.path == path]
        garbled = [finding for finding in here if finding.rule == "course/encoding"]
        self.findings = [finding for finding in self.findings if finding.span.source.path != path]
        again, findings = read_lesson(
            lesson.source,
            lesson.name,
            draft=lesson.draft,
            strings=self.strings,
            bases=bases,
            guitar=self.guitar,
        )
        self.findings += garbled or findings
        return again

    def read_signatures(self, course: Course) -> Course:
        """Read who has passed which lesson, where anybody has."""
        source = self.load(PROOFED) if self.is_there(PROOFED) else None
        if source is None:
            return course
        names = [lesson.name for lesson in (*course.lessons, *course.drafts)]
        signatures, findings = read_signatures(source, names)
        self.findings += findings
        return replace(course, signatures=signatures)

    def check_names(self, course: Course) -> None:
        """Report names that two blocks have."""
        first: dict[str, Span] = {}
        for block in course.blocks:
            if not isinstance(block, Lick | Progression | Chorus | ScaleBlock):
                continue
            at = block.span.text.rfind(block.name)
            if at < 0:  # it is no name as written, and that is told
                continue
            start = block.span.start + at
            span = Span(block.span.source, start, start + len(block.name))
            if block.name in first:
                found = Collector(block.span.source, block.name)
                labels = (Label(first[block.name], "first used here"),)
                found.add(
                    "course/duplicate-name",
                    f"the name {block.name} is used twice in the course",
                    span,
                    labels=labels,
                    hint="names of blocks are unique in the course",
                )
                self.findings += found.findings
            first.setdefault(block.name, span)

    def check_takes(self, course: Course) -> None:
        """Report recordings that are not there or lie outside."""
        for lick in course.blocks:
            if not isinstance(lick, Lick) or lick.take is None:
                continue
            found = Collector(lick.take.span.source, lick.name)
            path = lick.take.path
            if not self.is_inside(path, path):
                found.add("course/path", f"{quote(path)} leaves the course", lick.take.span)
            elif not self.is_there(path):
                found.add("course/missing-file", f"there is no take {quote(path)}", lick.take.span)
            self.findings += found.findings


def find_way_back(file: str) -> str:
    """Return the file of ``lessons/`` to which a path with ``..`` in it comes back, empty when to none."""
    path = normpath(f"{LESSONS}/{file}")
    return path.removeprefix(f"{LESSONS}/") if path.startswith(f"{LESSONS}/") else ""


def _unify_line_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _find_base(lick: Lick, licks: dict[str, Lick], strings: int) -> Base:
    """Return what a variation has from the licks it varies, the nearest first."""
    shapes: dict[str, Shape] = {}
    count: int | None = None
    seen: set[str] = set()
    now: Lick | None = lick
    while now is not None and now.name not in seen:
        seen.add(now.name)
        if count is None and now.tuning is not None:
            count = now.tuning.count
        if now is not lick:
            shapes = {shape.name: shape for shape in now.shapes} | shapes
        now = licks.get(now.vary) if now.vary else None
    return Base(count or strings, tuple(shapes.values()))
