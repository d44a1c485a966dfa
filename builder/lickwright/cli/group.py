"""The command ``lickwright`` and the table of its subcommands."""

from __future__ import annotations

import os
import sys
import traceback
from importlib import import_module
from pathlib import Path
from typing import Any

import click

from lickwright import __version__
from lickwright.cli.speech import complain

COMMANDS = ("start", "proof", "answer", "sign", "publish", "errata", "explain")
"""In the order of an author's work; each is the function of that name in the module of that name."""

COULD_NOT_RUN = 2


class Commands(click.Group):
    """Loads the module of a subcommand when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Return the names in the order of work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Return a subcommand."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = getattr(import_module(f"lickwright.cli.{cmd_name}"), cmd_name)
        return command


@click.command(
    cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100}
)
@click.version_option(__version__, message="lickwright %(version)s")
def lickwright() -> None:
    """Build a self-paced guitar course, taught by the lick."""


def main(arguments: list[str] | None = None) -> None:
    """Run the command and exit with its status; bad input never ends in a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without the sharp sign still gets the rest
    sys.exit(_run(arguments))


def _run(arguments: list[str] | None) -> int:
    try:
        status: Any = lickwright.main(arguments, prog_name="lickwright", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        return COULD_NOT_RUN
    except (click.Abort, KeyboardInterrupt):
        complain("stopped")
        return COULD_NOT_RUN
    except BrokenPipeError:  # who read what was asked for has gone, as `head` does
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return COULD_NOT_RUN
    except OSError as error:
        complain(f"{error.strerror or error}{f': {error.filename}' if error.filename else ''}")
        return COULD_NOT_RUN
    except Exception as error:  # our own fault, said in a sentence
        if "LICKWRIGHT_TRACEBACK" in os.environ:
            raise
        frame = traceback.extract_tb(error.__traceback__)[-1]
        complain(
            f"a fault of the builder, not of the course: {type(error).__name__}: {error} "
            f"({Path(frame.filename).name}, line {frame.lineno}); with LICKWRIGHT_TRACEBACK=1 it says more"
        )
        return COULD_NOT_RUN
    return status if isinstance(status, int) else 0
