"""Pieces from text; lets the tests of drawing import the modules of this folder."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Shape, Tempo
from lickwright.model.music import Piece
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

sys.path.append(str(Path(__file__).parent))


@pytest.fixture
def piece_of() -> Callable[..., tuple[Piece, tuple[Shape, ...]]]:
    """Return what makes a piece, and its lick's shapes, from the lines of a lick in A major."""

    def made(lines: str, guitar: Guitar | None = None) -> tuple[Piece, tuple[Shape, ...]]:
        guitar = guitar or Guitar()
        settings = Settings(parse_key("A major"), "straight", Tempo(100), guitar, Provenance("own"))
        source = Source("lessons/one.md", f"# One\n\n```lick one\n{lines}\n```\n")
        lesson, found = read_lesson(source, "one", guitar=guitar)
        book, faults = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
        assert (*found, *faults) == ()
        return book.piece("one"), lesson.blocks[0].block.shapes

    return made
