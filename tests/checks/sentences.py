"""Fixtures of sentences: a title, a sentence, what is expected of it, parted by lines with a point."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from proofroom import Proofroom

from lickwright.findings import Finding

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


def list_sentences(path: str) -> list[str]:
    """Return the sentences of a file that has one an item of its list."""
    lines = (HERE / path).read_text("utf-8").splitlines()
    return [line.removeprefix("- ") for line in lines if line.startswith("- ")]


def prove_each(room: Proofroom, licks: str, sentences: Iterable[str]) -> dict[str, list[Finding]]:
    """Return what is found in each of some sentences, all of them in one lesson after its licks."""
    text = licks
    lines: dict[int, str] = {}
    said: dict[str, list[Finding]] = {}
    for sentence in sentences:
        text += f"\n{sentence}\n"
        lines[text.count("\n")] = sentence
        said[sentence] = []
    for finding in room.prove(text).findings:
        said[lines[finding.span.place[0]]].append(finding)
        for label in finding.labels:  # sentences of several cases that say the same of one note
            if label.text == "said here, too":
                said[lines[label.span.place[0]]].append(replace(finding, span=label.span))
    return said
