"""The pictures of a course: files really inside ``pictures/``, links followed."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

PICTURES = "pictures"


def find_picture(course: Path, path: str) -> Path | None:
    """Return the file of a picture.

    Args:
        course: The course folder.
        path: ``pictures/neck.png``, from the course folder.

    Returns:
        The file with links followed; None when it is not there, is no file, lies in a circle of
        links, or lies outside ``pictures/`` or of the course.
    """
    try:
        inside = (course / PICTURES).resolve(strict=True)
        file = (course / path).resolve(strict=True)
        fine = inside.is_relative_to(course.resolve()) and file.is_relative_to(inside) and file.is_file()
    except (OSError, RuntimeError, ValueError):
        return None
    return file if fine else None
