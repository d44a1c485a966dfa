"""Handbook tables, read from text files that name their source."""

from collections.abc import Callable
from pathlib import Path

import pytest

Rows = list[dict[str, str]]


@pytest.fixture(scope="session")
def table() -> Callable[[str], Rows]:
    """Read a table by name: one dictionary a row; a heading that comes twice is numbered."""

    def read(name: str) -> Rows:
        text = (Path(__file__).parent / "tables" / f"{name}.txt").read_text(encoding="utf-8")
        lines = [line for line in text.splitlines() if not line.startswith("#")]
        split = [[cell.strip() for cell in line.split(" | ")] for line in lines]
        heads = [
            head if split[0].index(head) == place else f"{head} {place}"
            for place, head in enumerate(split[0])
        ]
        return [dict(zip(heads, cells, strict=True)) for cells in split[1:]]

    return read
