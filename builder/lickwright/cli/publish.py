"""``lickwright publish``: a course becomes a site."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from lickwright.cli.places import course_argument
from lickwright.cli.speech import report, show

if TYPE_CHECKING:
    from lickwright.building.publish import Published


@click.command
@course_argument
@click.option(
    "--to",
    "site",
    type=click.Path(path_type=Path),
    default="site",
    metavar="FOLDER",
    help="Where the site is to stand (default: site). What an earlier publish put there is replaced.",
)
@click.option("--no-sound", is_flag=True, help="Leave the sound out.")
@click.option("--signed", is_flag=True, help="Publish only if every lesson is signed as it stands.")
@click.option("--cache", type=click.Path(path_type=Path, file_okay=False), help="Another cache folder.")
@click.option("--progress/--no-progress", default=None, help="Show progress (default: on a terminal).")
def publish(
    course: Path, site: Path, no_sound: bool, signed: bool, cache: Path | None, progress: bool | None
) -> int:
    """Publish the COURSE (default: content) as a site that a browser opens from disk.

    A course with errors does not publish; the last site then stays as it is. Exit status as of proof.
    """
    from lickwright.building.cache import Cache, default_folder
    from lickwright.building.publish import publish as publish_course
    from lickwright.building.workers import WorkersError
    from lickwright.cli.progress import Progress
    from lickwright.pages.theme import ThemeError

    watch = Progress(progress)
    try:
        published = publish_course(
            course, site, Cache(cache or default_folder()), sound=not no_sound, signed=signed, watch=watch
        )
    except (ThemeError, WorkersError) as error:
        raise click.ClickException(str(error)) from None
    except KeyboardInterrupt:
        report("Not published; the last site is as it was.")
        raise
    finally:
        watch.end()
    return tell(published, site)


def tell(published: Published, site: Path) -> int:
    """Say what a publish came to, and return the exit status."""
    findings = (*published.proofed.proof.findings, *published.findings)
    if findings:
        show(findings)
    for each in published.unsigned:
        by = f" by {each.signature.by}" if each.signature else ""
        report(f"{each.lesson.source.path}: {each.state}{by}")
    if not published.site:
        report("Not published; the last site is as it was.")
        if published.proofed.proof.errors:
            report("To see the errors engraved: lickwright proof --sheet FOLDER")
        return 1
    report(
        f"{published.pages} pages in {site}: {published.made} scores and sounds made, "
        f"{published.kept} kept from before. Open {site / 'index.html'} in a browser."
    )
    for page in published.heavy:
        largest = ", ".join(f"{name} {size / 1000:.0f} kB" for name, size in page.largest)
        told = f" Its largest: {largest}." if largest else ""
        report(
            f"Note: {page.path} is heavy ({page}); a phone opens it slowly.{told} Perhaps it is two lessons."
        )
    return 0
