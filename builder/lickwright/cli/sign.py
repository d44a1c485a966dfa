"""``lickwright sign``: a lesson is proofread and passed."""

from __future__ import annotations

from pathlib import Path

import click

from lickwright.cli.places import check_names, course_argument
from lickwright.cli.speech import report, show


@click.command
@click.argument("lesson")
@course_argument
@click.option("--by", prompt="Signed by", metavar="NAME", help="Who has read it and passes it.")
def sign(lesson: str, course: Path, by: str) -> int:
    """Sign LESSON of the COURSE (default: content): it has been proofread and passed.

    Its errors and queries must be mended or let stand first. A later change of its music or words shows in
    the proof; `publish --signed` publishes only what is signed. Exit status 1 when something is left open.
    """
    from lickwright.building.signing import sign_lesson

    if not by.strip():
        raise click.UsageError("a signature needs a name")
    name = lesson.removesuffix(".md")
    signed = sign_lesson(course, name, " ".join(by.split()))
    if signed.known:
        check_names("lesson", [name], signed.known)
    if signed.signature is None:
        show(signed.open)
        report(f"{name} is not signed: mend these, or let them stand.")
        return 1
    report(f"{name} is signed by {signed.signature.by} (mark {signed.signature.mark}).")
    return 0
