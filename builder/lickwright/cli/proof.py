"""``lickwright proof``: what the builder has to say about a course."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from lickwright.cli.places import check_names, course_argument, lesson_name
from lickwright.cli.speech import report, say, show

if TYPE_CHECKING:
    from lickwright.building.proofing import Proofed
    from lickwright.checks.proof import Proof

FORMATS = ("text", "json", "sarif", "github", "queries", "coverage")


@click.command
@course_argument
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="text",
    help="How findings are written: for people, as JSON, as SARIF 2.1.0, as annotations of a hosted build, "
    "as a list of queries to be answered; or what the course covers, lesson by lesson, instead of them.",
)
@click.option("--strict", is_flag=True, help="Queries count as errors.")
@click.option("--notes", is_flag=True, help="Show the notes, too.")
@click.option("--only", multiple=True, metavar="GROUP-or-RULE", help="Only these findings; may be repeated.")
@click.option("--lesson", "lessons", multiple=True, metavar="NAME", help="Only this lesson; may be repeated.")
@click.option(
    "--sheet",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Make the proof sheet as a page, with the bars engraved and sounded; what was there is replaced.",
)
def proof(
    course: Path,
    form: str,
    strict: bool,
    notes: bool,
    only: tuple[str, ...],
    lessons: tuple[str, ...],
    sheet: Path | None,
) -> int:
    """Proof the COURSE (default: content) and print the findings.

    Exit status: 0 clean, queries and notes allowed; 1 errors found; 2 the command could not run.
    """
    from lickwright.building.proofing import proof_course

    made = proof_course(course)
    proofed = _select(made, only, lessons)
    _print(made, proofed, form, course, notes=notes)
    if sheet is not None:
        _make_sheet(replace(made, proof=proofed), course, sheet)
    return status(proofed, strict=strict)


def _select(made: Proofed, only: tuple[str, ...], lessons: tuple[str, ...]) -> Proof:
    if not only and not lessons:
        return made.proof
    from lickwright.building.failures import HANDBOOK
    from lickwright.checks.catalogue import rules
    from lickwright.checks.groups import GROUPS
    from lickwright.checks.selection import select

    check_names("rule or group", only, [*GROUPS, *rules(), *HANDBOOK])
    names = [lesson_name(given) for given in lessons]
    if made.course is not None:
        known = [lesson.name for lesson in (*made.course.lessons, *made.course.drafts)]
        check_names("lesson", names, known)
    return select(made.proof, only, names)


def _print(made: Proofed, proofed: Proof, form: str, course: Path, *, notes: bool) -> None:
    from lickwright.checks.stets import Offers

    course_read, book = made.course, made.book
    if form == "text":
        offers = Offers(course_read, book, made.proof.findings) if course_read and book else None
        show(
            proofed.findings,
            offer=offers.stet if offers else None,
            standing=proofed.standing,
            notes=notes,
        )
    elif form == "json":
        from lickwright.report.json import render_json

        say(render_json(proofed.findings).rstrip())
    elif form == "sarif":
        from lickwright.report.sarif import render_sarif

        say(render_sarif(proofed.findings, proofed.standing).rstrip())
    elif form == "github":
        from lickwright.report.github import render_github

        say(render_github(proofed.findings, course.as_posix()).rstrip())
    elif form == "coverage":
        from lickwright.checks.coverage import cover
        from lickwright.report.coverage import render_coverage

        if made.course is not None and book is not None:
            say(render_coverage(cover(made.course, book)).rstrip())
    else:
        from lickwright.checks.work_list import in_order
        from lickwright.report.queries import render_queries

        say(
            render_queries(
                in_order(made.course, proofed.findings), made.course.title if made.course else ""
            ).rstrip()
        )


def _make_sheet(proofed: Proofed, course: Path, folder: Path) -> None:
    from lickwright.building.cache import Cache, default_folder
    from lickwright.building.sheet import make_sheet
    from lickwright.building.workers import WorkersError
    from lickwright.cli.progress import Progress
    from lickwright.pages.shelf import PROOF
    from lickwright.pages.theme import ThemeError

    watch = Progress()
    try:
        made = make_sheet(proofed, course / "theme", folder, Cache(default_folder()), watch=watch)
    except (ThemeError, WorkersError) as error:
        raise click.ClickException(str(error)) from None
    finally:
        watch.end()
    if not made.pages:
        report("No proof sheet: without its manifest there is no course to make one of.")
        return
    for failure in made.failures:
        report(f"Not made, {failure.job.order.for_lick}: {failure.detail}")
    report(f"The proof sheet is {folder / PROOF}.")


def status(proofed: Proof, *, strict: bool = False) -> int:
    """Return the exit status that findings ask for."""
    return int(bool(proofed.errors) or (strict and bool(proofed.queries)))
