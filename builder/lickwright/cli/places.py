"""Arguments and options that several commands share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from pathlib import Path, PurePosixPath

import click

course_argument = click.argument(
    "course", type=click.Path(path_type=Path, exists=True, file_okay=False), default="content"
)
"""The course's folder; ``content`` when it is not named."""


def lesson_name(given: str) -> str:
    """Return the name of a lesson: as it is, as its file, or by the path that findings print."""
    return PurePosixPath(given.replace("\\", "/")).name.removesuffix(".md")


def check_names(what: str, given: Iterable[str], known: Sequence[str]) -> None:
    """Make sure that what an option names is there.

    Raises:
        click.UsageError: For a name that is not, with the nearest one that is.
    """
    for name in given:
        if name not in known:
            near = get_close_matches(name, known, n=1)
            hint = f"; did you mean {near[0]}?" if near else ""
            raise click.UsageError(f"there is no {what} {name}{hint}")
