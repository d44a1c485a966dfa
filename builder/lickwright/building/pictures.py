"""The pictures that the pages of a course show, as they are copied into its site."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from lickwright.reading.pictures import find_picture

SUFFIXES = frozenset({".png", ".jpg", ".jpeg", ".gif", ".webp", ".svg", ".avif"})
"""Of files that are copied as pictures."""


def read_pictures(paths: Iterable[str], course: Path) -> Iterator[tuple[str, bytes]]:
    """Yield path and content of pictures, each once; what is none, or lies outside, is left out.

    An SVG is copied as it is: a page shows it by ``<img>``, where a browser runs no script of it (SVG 2,
    "secure animated mode") and loads nothing.

    Args:
        paths: Below ``pictures/``, in the course and in the site.
        course: The course's folder.
    """
    for path in dict.fromkeys(paths):
        file = find_picture(course, path)
        if file is not None and {file.suffix.lower(), Path(path).suffix.lower()} <= SUFFIXES:
            yield path, file.read_bytes()
