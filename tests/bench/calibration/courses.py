"""Material (d): the courses of this tree, every lick and variation in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from calibration.work import Work
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course


def read_courses(folders: Iterable[Path]) -> Iterator[Work]:
    """Read the licks of every folder that holds a course; choruses and excerpts only repeat them."""
    for folder in folders:
        if not (folder / "course.toml").is_file():
            continue
        course, _ = read_course(folder)
        if course is None:
            continue
        book, _ = resolve(course)
        for piece in book.pieces:
            if piece.kind == "lick":
                yield Work(f"{folder.name} {piece.name}", f"(d) {folder.name}", piece)
