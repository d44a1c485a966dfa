"""What the commands say, on which stream, safe for a terminal."""

from __future__ import annotations

import unicodedata

import click


def say(text: str) -> None:
    """Print what was asked for."""
    click.echo(harmless(text))


def report(text: str) -> None:
    """Print how the work went, on the error stream, so that what was asked for can be piped on."""
    click.echo(harmless(text), err=True)


def complain(text: str) -> None:
    """Print why the command could not run."""
    report(f"lickwright: {text}")


def harmless(text: str) -> str:
    """Take terminal codes out of a text that an author wrote: control and direction signs become ``�``."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(c if c in "\n\t" or unicodedata.category(c) not in {"Cc", "Cf"} else "�" for c in text)
