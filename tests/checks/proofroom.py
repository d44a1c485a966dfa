"""The proof room: examples and phrases go through the whole pipeline, from a folder to a proof."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from lickwright.checks import Proof, proof
from lickwright.checks.handbook import lesson
from lickwright.checks.rule import Example
from lickwright.findings import Finding
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

PHRASES = Path(__file__).parent / "phrases"
MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"
tempo = 120
feel = "straight"
style = "{style}"

[[unit]]
title = "One"
lessons = ["example.md"]
"""


class Proofroom:
    """Makes a course of an example, reads and proofs it."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._made = 0

    def prove(self, example: Example | str, style: str = "country") -> Proof:
        """Proof an example, or a text as the only lesson of a plain course."""
        if isinstance(example, str):
            example = Example(example)
        self._made += 1
        folder = self._folder / f"course-{self._made}"
        (folder / "lessons").mkdir(parents=True)
        if example.course is not None:
            (folder / "course.toml").write_text(example.course or MANIFEST.format(style=style), "utf-8")
        (folder / "lessons" / "example.md").write_text(lesson(example), "utf-8")
        for path, content in example.files:
            place = folder / path
            if content is None:
                place.mkdir()
            elif isinstance(content, bytes):
                place.write_bytes(content)
            else:
                place.write_text(content, "utf-8")
        return prove_folder(folder)


def prove_folder(folder: Path) -> Proof:
    """Read, resolve and proof a course."""
    course, findings = read_course(folder)
    if course is None:
        return Proof(tuple(findings))
    book, unresolved = resolve(course)
    return proof(course, book, (*findings, *unresolved))


def told(findings: Proof) -> list[tuple[str, str]]:
    """The rule and the marked text of each finding."""
    return sorted((finding.rule, finding.span.text) for finding in findings.findings)


def only(findings: Proof) -> Finding:
    """The one finding there is."""
    assert len(findings.findings) == 1, told(findings)
    return findings.findings[0]


def phrases(name: str) -> Iterator[tuple[str, str]]:
    """Name and text of each lick of a file of phrases."""
    text = (PHRASES / f"{name}.md").read_text("utf-8")
    for block in re.finditer(r"^```lick (\S+)\n.*?^```$", text, re.DOTALL | re.MULTILINE):
        yield block[1], block[0]
