"""``lickwright errata``: what changed between two editions of a course."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from lickwright.cli.speech import report, say, show

if TYPE_CHECKING:
    from lickwright.errata import Errata
    from lickwright.model.course import Course
    from lickwright.model.timeline import Book

_FOLDER = click.Path(path_type=Path, exists=True, file_okay=False)


@click.command
@click.argument("old", type=_FOLDER)
@click.argument("new", type=_FOLDER)
@click.option(
    "--format", "form", type=click.Choice(("text", "json")), default="text", help="How it is written."
)
@click.option(
    "--to",
    "site",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Make a page of it as well, with the bars of both editions engraved.",
)
def errata(old: Path, new: Path, form: str, site: Path | None) -> int:
    """Say what changed in the music and the words from the course in OLD to the course in NEW.

    Exit status: 0, whatever has changed; 1 when a course, or a bar of it, cannot be read; 2 the command
    could not run.
    """
    from lickwright.building.proofing import proof_course
    from lickwright.errata import compare

    before, after = proof_course(old), proof_course(new)
    for folder, made in ((old, before), (new, after)):
        if made.course is None:
            show(made.proof.findings)
            report(f"{folder} cannot be read as a course.")
    if before.course is None or before.book is None or after.course is None or after.book is None:
        return 1
    broken = before.proof.broken, after.proof.broken
    found = compare(before.course, before.book, after.course, after.book, broken)
    from lickwright.report.errata import render_errata, render_errata_json

    say((render_errata if form == "text" else render_errata_json)(found).rstrip())
    ended = 0 if site is None else _make_page(found, after.course, after.book, new / "theme", site)
    return ended or int(bool(found.unread))


def _make_page(found: Errata, course: Course, book: Book, theme: Path, site: Path) -> int:
    from lickwright.building.cache import Cache, default_folder
    from lickwright.building.leaflet import make_leaflet
    from lickwright.building.workers import WorkersError
    from lickwright.pages.edition import Edition
    from lickwright.pages.errata import errata_page
    from lickwright.pages.theme import ThemeError, read_theme

    try:
        look = read_theme(theme)
        page = errata_page(found, Edition(course, book, look, sound=False))
        failures = make_leaflet([page], look, site, Cache(default_folder()))
    except (ThemeError, WorkersError) as error:
        raise click.ClickException(str(error)) from None
    if failures:
        report("Not made: " + "; ".join(failure.detail for failure in failures))
        return 1
    report(f"The page is {site / 'index.html'}.")
    return 0
