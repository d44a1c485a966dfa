"""``lickwright proof``: what the builder has to say about a course."""

from __future__ import annotations

import gc
from pathlib import Path
from typing import TYPE_CHECKING

import click

from lickwright.cli.places import course_argument
from lickwright.cli.speech import say, show

if TYPE_CHECKING:
    from lickwright.checks.proof import Proof

FORMATS = ("text", "json")


@click.command
@course_argument
@click.option(
    "--format", "form", type=click.Choice(FORMATS), default="text", help="How findings are written."
)
@click.option("--strict", is_flag=True, help="Queries count as errors.")
def proof(course: Path, form: str, strict: bool) -> int:
    """Proof the COURSE (default: content) and print the findings.

    Exit status: 0 clean, queries and notes allowed; 1 errors found; 2 the command could not run.
    """
    from lickwright.building.proofing import proof_course

    gc.disable()  # what is read stays to the end: looking for garbage in it costs a fifth of the time
    try:
        made = proof_course(course)
    finally:
        gc.enable()
    proofed = made.proof
    if form == "text":
        from lickwright.checks.stets import offer

        book = made.book
        show(
            proofed.findings,
            offer=None if book is None else lambda finding: offer(book, finding),
            standing=proofed.standing,
        )
    else:
        from lickwright.report.json import render_json

        say(render_json(proofed.findings).rstrip())
    return status(proofed, strict=strict)


def status(proofed: Proof, *, strict: bool = False) -> int:
    """Return the exit status that findings ask for."""
    return int(bool(proofed.errors) or (strict and bool(proofed.queries)))
