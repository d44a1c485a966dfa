"""The guide's examples of mistakes, and a course to try an example in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from markdown_it import MarkdownIt

import lickwright
from lickwright.building.proofing import Proofed, proof_course

GUIDE = Path(lickwright.__file__).parent / "guide"
LESSONS = GUIDE / "lessons"
MANIFEST = """[course]
title = "Examples"
author = "An author"
style = "country"
key = "A major"

[[unit]]
title = "One"
lessons = ["tuning-up.md"]
"""
_SAID = re.compile(
    r"\*(error|query|note)\* `([a-z-]+/[a-z-]+)`(?:,\s(but\snot\s)?with\s`([^`]+)`)?:(?: (.*))?\Z",
    re.DOTALL,
)


@dataclass(frozen=True)
class Mistake:
    """A mistake as the guide shows it: its text, and the finding that the guide says it gives.

    Attributes:
        setting: A line of the manifest with which it is found, and without it not; or (``kept`` False) the
            other way round. Empty where it is found in any course.
    """

    topic: str
    line: int
    text: str
    severity: str
    rule: str
    message: str
    setting: str = ""
    kept: bool = True

    @property
    def name(self) -> str:
        """Where it stands, for the names of tests."""
        return f"{self.topic}-{self.line}"


def list_mistakes() -> tuple[Mistake, ...]:
    """Return every ordinary code block that is followed by the finding it gives."""
    found = []
    for path in sorted(LESSONS.glob("*.md")):
        tokens = MarkdownIt("commonmark").parse(path.read_text(encoding="utf-8"))
        for fence, opening, inline in zip(tokens, tokens[1:], tokens[2:], strict=False):
            if fence.type != "fence" or fence.info or opening.type != "paragraph_open":
                continue
            said = _SAID.match(inline.content)
            if said:
                message = " ".join((said[5] or "").split())
                line = (fence.map or [0])[0] + 1
                found.append(
                    Mistake(
                        path.stem, line, fence.content, said[1], said[2], message, said[4] or "", not said[3]
                    )
                )
    return tuple(found)


def try_example(text: str, folder: Path, setting: str = "") -> Proofed:
    """Proof a manifest, a lesson, or what stands in a lick, in a small course of its own.

    A setting, ``level = "beginner"``, takes the place of what its manifest says.
    """
    key = setting.partition(" ")[0]
    lines = [line for line in MANIFEST.splitlines() if not (key and line.startswith(f"{key} "))]
    lines.insert(1, setting)
    lesson, manifest = text, "\n".join(lines) + "\n"
    if text.startswith("[course]"):
        lesson, manifest = "# Tuning up\n\nWords.\n", text
    elif "```" not in text and not text.startswith(("[", "#")):
        lesson = f"```lick example\n{text}```\n"
    (folder / "lessons").mkdir(parents=True)
    (folder / "course.toml").write_text(manifest, encoding="utf-8")
    (folder / "lessons" / "tuning-up.md").write_text(lesson, encoding="utf-8")
    return proof_course(folder)
