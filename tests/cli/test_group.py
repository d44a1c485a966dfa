"""The frame of the commands: names, statuses, what is loaded, what is never shown."""

import subprocess
import sys
from pathlib import Path

import click
import pytest

from lickwright import __version__
from lickwright.cli import group
from lickwright.cli.group import COMMANDS, COULD_NOT_RUN, main


def status(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        main(list(arguments))
    assert isinstance(ended.value.code, int)
    return ended.value.code


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    """Help lists the commands there are, each with a line, and no others."""
    assert status("--help") == 0
    listed = capsys.readouterr().out.partition("Commands:\n")[2].splitlines()
    assert tuple(line.split()[0] for line in listed) == COMMANDS
    assert all(len(line.split()) > 2 for line in listed)


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    """The version is that of the package."""
    assert status("--version") == 0
    assert capsys.readouterr().out == f"lickwright {__version__}\n"


@pytest.mark.parametrize(
    "arguments",
    [
        ["sing"],
        ["proof", "no-such-folder"],
        ["proof", "--format", "song"],
        ["start"],
        ["publish", "--sound"],
        [],
    ],
)
def test_what_cannot_run_ends_with_two(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """An unknown command, folder, choice or option ends with status 2 and says so without a traceback."""
    assert status(*arguments) == COULD_NOT_RUN
    said = capsys.readouterr().err
    assert said
    assert "Traceback" not in said


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (PermissionError(13, "Permission denied", "site"), "Permission denied: site"),
        (KeyboardInterrupt(), "stopped"),
        (ZeroDivisionError("by zero"), "a fault of the builder"),
    ],
)
def test_exceptions_become_sentences(
    fault: BaseException, words: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What the disk refuses, an interrupt and a fault of our own are said in a line, status 2."""

    @click.command
    def proof() -> None:
        raise fault

    monkeypatch.delenv("LICKWRIGHT_TRACEBACK", raising=False)
    monkeypatch.setattr(group.Commands, "get_command", lambda *_: proof)
    assert status("proof") == COULD_NOT_RUN
    said = capsys.readouterr().err
    assert words in said
    assert said.count("\n") == 1 + isinstance(fault, KeyboardInterrupt) * said.startswith("\n")


def test_help_loads_click_and_little_else() -> None:
    """What is slow to load stays out of ``--help``."""
    code = (
        "import sys\n"
        "from lickwright.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "print('LOADED', *sorted(name for name in sys.modules if '.' not in name))"
    )
    builder = str(Path(__file__).parents[2] / "builder")
    outcome = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True, env={"PYTHONPATH": builder}
    )
    loaded = set(outcome.stdout.rpartition("LOADED ")[2].split())
    assert "click" in loaded
    slow = {"verovio", "music21", "numpy", "soundfile", "lxml", "jinja2", "pydantic", "markdown_it"}
    assert loaded & slow == set()
