"""Progress on long work: how many licks, and which one. On the error stream."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field

import click

from lickwright.building.progress import Step
from lickwright.cli.speech import harmless, report


@dataclass(slots=True)
class Progress:
    """Shows steps as they come: on a terminal one line that is written over, else a line a lick.

    Attributes:
        wanted: True and False as ``--progress`` and ``--no-progress`` say; None shows it on a terminal only.
    """

    wanted: bool | None = None
    _last: str = field(default="", init=False)

    def __call__(self, step: Step) -> None:
        """Show a step."""
        terminal = sys.stderr.isatty()
        if not (terminal if self.wanted is None else self.wanted):
            return
        line = f"{step.work}: {step.done} of {step.total} licks {step.name}" if step.total else step.work
        if (line := line.rstrip()) == self._last:
            return
        self._last = line
        if terminal:
            click.echo(f"\r\x1b[K{harmless(line)[:78]}", err=True, nl=False)
        else:
            report(line)

    def end(self) -> None:
        """Leave the terminal clean for what comes after."""
        if self._last and sys.stderr.isatty():
            click.echo("\r\x1b[K", err=True, nl=False)
        self._last = ""
