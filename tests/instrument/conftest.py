"""Handbook tables, read from text files that name their source."""

from collections.abc import Callable
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def table() -> Callable[[str], list[dict[str, str]]]:
    """Read a table by name: one dictionary a row."""

    def read(name: str) -> list[dict[str, str]]:
        text = (Path(__file__).parent / "tables" / f"{name}.txt").read_text(encoding="utf-8")
        lines = [line.split(" | ") for line in text.splitlines() if not line.startswith("#")]
        return [dict(zip(lines[0], cells, strict=True)) for cells in lines[1:]]

    return read
