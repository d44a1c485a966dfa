"""``lickwright start``: a new course."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

import click

from lickwright.cli.speech import report


@click.command
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
def start(folder: Path) -> None:
    """Start a new course in FOLDER, which must be new or empty.

    It has a manifest and one lesson with a lick, and proofs clean.
    """
    if folder.exists() and any(folder.iterdir()):
        raise click.UsageError(f"{folder} is not empty")
    _copy(files("lickwright.cli") / "new_course", folder)
    report(
        f"A course has been started in {folder}.\n  lickwright proof {folder}\n  lickwright publish {folder}"
    )


def _copy(source: Traversable, target: Path) -> None:
    if source.is_dir():
        target.mkdir(parents=True, exist_ok=True)
        for entry in source.iterdir():
            _copy(entry, target / entry.name)
    else:
        target.write_bytes(source.read_bytes())
