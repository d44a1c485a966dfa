"""What the commands say, on which stream, safe for a terminal."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from lickwright.checks.stets import Standing
    from lickwright.findings import Finding

_COLOURS: dict[str, dict[str, Any]] = {
    "error": {"fg": "red", "bold": True},
    "query": {"fg": "blue", "bold": True},
    "note": {"bold": True},
    "place": {"bold": True},
    "caret": {"fg": "blue"},
    "help": {"fg": "cyan"},
}


def say(text: str) -> None:
    """Print what was asked for."""
    click.echo(harmless(text))


def report(text: str) -> None:
    """Print how the work went, on the error stream, so that what was asked for can be piped on."""
    click.echo(harmless(text), err=True)


def show(
    findings: Iterable[Finding],
    *,
    offer: Callable[[Finding], str] | None = None,
    standing: Iterable[Standing] = (),
    notes: bool = False,
) -> None:
    """Print findings for people, in colour on a terminal; the renderer has made them harmless."""
    from lickwright.report.text import render_text

    plain = False if os.environ.get("NO_COLOR") else None
    text = render_text(findings, _paint, offer=offer, standing=standing, notes=notes)
    click.echo(text, nl=False, color=plain)


def _paint(text: str, role: str) -> str:
    return click.style(text, **_COLOURS[role])


def complain(text: str) -> None:
    """Print why the command could not run."""
    report(f"lickwright: {text}")


def harmless(text: str) -> str:
    """Take out of a text all that a terminal obeys but line ends; the rule is that of the findings."""
    if text.isascii() and text.isprintable():
        return text
    from lickwright.report.text import clean

    return "\n".join(clean(line) for line in text.split("\n"))
