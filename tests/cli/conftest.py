"""Runs the command in a process of its own, as an author does."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

Command = Callable[..., "subprocess.CompletedProcess[str]"]
BUILDER = Path(__file__).parents[2] / "builder"


@pytest.fixture
def lickwright(tmp_path: Path) -> Command:
    """Return what runs ``lickwright ARGUMENT …`` in an empty folder, with a cache of its own."""

    def run(*arguments: str | Path, **more: object) -> subprocess.CompletedProcess[str]:
        return subprocess.run(  # type: ignore[call-overload,no-any-return]
            [sys.executable, "-m", "lickwright", *arguments],
            check=False,
            capture_output=True,
            text=True,
            cwd=tmp_path,
            env={
                **os.environ,
                "PYTHONPATH": str(BUILDER),
                "XDG_CACHE_HOME": str(tmp_path / "cache"),
                "PYTHONUTF8": "1",
            },
            **more,
        )

    return run
