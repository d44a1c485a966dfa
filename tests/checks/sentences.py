"""Fixtures of sentences: a title, a sentence, what is expected of it, parted by lines with a point."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent


class Case(NamedTuple):
    """A sentence and a line for each thing expected of it."""

    title: str
    sentence: str
    expected: list[str]


def load_cases(path: str) -> list[Case]:
    """Return the cases of a file, its heading and what stands before the first point left out."""
    parts: list[list[str]] = [[]]
    for line in (HERE / path).read_text("utf-8").split("\n"):
        if line == ".":
            parts.append([])
        else:
            parts[-1].append(line)
    cases = []
    for title, sentence, expected in zip(parts[0::3], parts[1::3], parts[2::3], strict=False):
        name = " ".join(line for line in title if line and not line.startswith("#"))
        cases.append(Case(name, "\n".join(sentence), [line for line in expected if line]))
    return cases
