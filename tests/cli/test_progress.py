"""What progress looks like, on a terminal and in a log."""

import sys

import pytest

from lickwright.building.progress import Step
from lickwright.cli.progress import Progress

STEPS = [
    Step("Proofing"),
    Step("Engraving and sounding", 0, 2),
    Step("Engraving and sounding", 1, 2, "a\x1b[2J"),
]


def shown(wanted: bool | None, *, terminal: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal, raising=False)
    progress = Progress(wanted)
    for step in (*STEPS, STEPS[-1]):
        progress(step)
    progress.end()


@pytest.mark.parametrize(("wanted", "terminal"), [(None, False), (False, True), (False, False)])
def test_silence(
    wanted: bool | None, terminal: bool, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Away from a terminal, or when it is not wanted, nothing is shown."""
    shown(wanted, terminal=terminal, monkeypatch=monkeypatch)
    assert capsys.readouterr() == ("", "")


def test_a_line_a_step_in_a_log(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """In a log each step is a line, said once, without terminal codes."""
    shown(True, terminal=False, monkeypatch=monkeypatch)
    assert capsys.readouterr().err.splitlines() == [
        "Proofing",
        "Engraving and sounding: 0 of 2 licks",
        "Engraving and sounding: 1 of 2 licks a␛[2J",
    ]


def test_one_line_on_a_terminal(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal one line is written over, and wiped at the end."""
    shown(None, terminal=True, monkeypatch=monkeypatch)
    err = capsys.readouterr().err
    assert "\n" not in err
    assert err.endswith("\r\x1b[K")
    assert err.count("1 of 2 licks") == 1
