"""Runs the command as an author does: by its arguments, in a folder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from lickwright.cli.group import main


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a command came to."""

    status: int
    out: str
    err: str


Command = Callable[..., Outcome]


@pytest.fixture(scope="session")
def caches(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One folder of caches for all tests: the guide, which every site carries, is engraved once."""
    return tmp_path_factory.mktemp("caches")


@pytest.fixture
def lickwright(
    tmp_path: Path, caches: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Command:
    """Return what runs ``lickwright ARGUMENT …`` in an empty folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(caches))
    monkeypatch.delenv("LICKWRIGHT_TRACEBACK", raising=False)

    def run(*arguments: str | Path) -> Outcome:
        capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main([str(argument) for argument in arguments])
        assert isinstance(ended.value.code, int)
        said = capsys.readouterr()
        return Outcome(ended.value.code, said.out, said.err)

    return run
