"""Addresses: of pages in the site, of one page from another, of what an author's link means."""

from __future__ import annotations

import re
from collections.abc import Iterable
from posixpath import relpath
from urllib.parse import quote, unquote

from lickwright.model.course import Lesson

AWAY = re.compile(r"(?:https?://|mailto:)", re.IGNORECASE)
"""Links that leave the book; the page never loads them."""


def relative(path: str, page: str) -> str:
    """Return the address of a file of the site as a page writes it."""
    folder = page.rpartition("/")[0]
    return quote(relpath(path, folder or "."), safe="/.-_~")


def root_of(page: str) -> str:
    """Return the way from a page to the site's root: empty, ``../`` …."""
    return "../" * page.count("/")


def picture_path(source: str) -> str | None:
    """Return where a picture stands in the course and in the site, or None if it is not the course's own.

    Args:
        source: As an author writes it in a lesson, with or without ``../`` before it.
    """
    path = unquote(source.removeprefix("../"))
    inside = path.startswith("pictures/") and all(part not in ("", ".", "..") for part in path.split("/"))
    return path if inside and not re.search(r"[\\:\x00-\x1f]", path) else None


def file_name(text: str) -> str:
    """Return a name that every file system and address takes: small letters, digits, hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-") or "page"


def lesson_paths(lessons: Iterable[Lesson], folder: str = "lessons") -> dict[str, str]:
    """Return the path of each lesson's page by the lesson's name; names that come out alike get a number."""
    paths: dict[str, str] = {}
    taken: set[str] = set()
    for lesson in lessons:
        name = base = file_name(lesson.name)
        number = 2
        while name in taken:
            name, number = f"{base}-{number}", number + 1
        taken.add(name)
        paths[lesson.name] = f"{folder}/{name}.html"
    return paths


def lick_anchor(name: str) -> str:
    """Return the id of a lick's section."""
    return f"lick-{file_name(name)}"
