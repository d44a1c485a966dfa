"""Fixtures that read as documentation: title, input, expected findings, parted by lines with a point."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent
sys.path.append(str(HERE))
FIXTURES = HERE / "fixtures"


class Case(NamedTuple):
    """One case of a fixture file: what is written, and a line for each finding expected."""

    title: str
    text: str
    expected: list[str]


def load_cases(folder: str) -> list[Case]:
    """Return the cases of every file of a folder of fixtures."""
    cases = []
    for file in sorted((FIXTURES / folder).glob("*.md")):
        parts: list[list[str]] = [[]]
        for line in file.read_text(encoding="utf-8").split("\n"):
            if line == ".":
                parts.append([])
            else:
                parts[-1].append(line)
        for title, text, expected in zip(parts[0::3], parts[1::3], parts[2::3], strict=False):
            name = f"{file.stem}: {''.join(title)}"
            cases.append(Case(name, "\n".join(text), expected))
    return cases


def pytest_generate_tests(metafunc) -> None:
    """Give a test that asks for ``lick_case``, ``lesson_case`` or ``manifest_case`` all of them."""
    for kind in ("lick", "lesson", "manifest"):
        if f"{kind}_case" in metafunc.fixturenames:
            cases = load_cases(kind)
            metafunc.parametrize(f"{kind}_case", cases, ids=[case.title for case in cases])
