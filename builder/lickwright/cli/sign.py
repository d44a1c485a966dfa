"""``lickwright sign``: a lesson is proofread and passed."""

from __future__ import annotations

from pathlib import Path

import click

from lickwright.cli.places import check_names, course_argument, lesson_name
from lickwright.cli.speech import report, show

NAMELESS = "nothing is signed: a signature needs a name, --by NAME"


@click.command
@click.argument("lesson")
@course_argument
@click.option("--by", metavar="NAME", help="Who has read it and passes it; asked for if not given.")
def sign(lesson: str, course: Path, by: str | None) -> int:
    """Sign LESSON of the COURSE (default: content): it has been proofread and passed.

    Its errors and queries must be mended or let stand first. A later change of its music or words shows in
    the proof; `publish --signed` publishes only what is signed. Exit status 1 when something is left open.
    """
    from lickwright.building.signing import sign_lesson

    by = _ask() if by is None else by
    if not by.strip():
        raise click.UsageError(NAMELESS)
    name = lesson_name(lesson)
    signed = sign_lesson(course, name, " ".join(by.split()))
    if signed.known:
        check_names("lesson", [name], signed.known)
    if signed.signature is None:
        show(signed.open)
        report(f"{name} is not signed: mend these, or let them stand.")
        return 1
    report(f"{name} is signed by {signed.signature.by} (mark {signed.signature.mark}).")
    return 0


def _ask() -> str:
    try:
        return str(click.prompt("Signed by"))
    except click.Abort:  # the end of the input, where nobody is there to be asked
        raise click.UsageError(NAMELESS) from None
