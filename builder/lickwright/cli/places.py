"""Arguments and options that several commands share."""

from __future__ import annotations

from pathlib import Path

import click

course_argument = click.argument(
    "course", type=click.Path(path_type=Path, exists=True, file_okay=False), default="content"
)
"""The course's folder; ``content`` when it is not named."""
