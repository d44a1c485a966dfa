"""Licks as an author types them, read and resolved."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from lickwright.findings import Finding
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import Book, resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

Resolver = Callable[[str], tuple[Book, tuple[Finding, ...]]]


@pytest.fixture
def resolved() -> Resolver:
    """Read a lesson's text and resolve it in a plain course; reading must find nothing."""

    def run(text: str) -> tuple[Book, tuple[Finding, ...]]:
        key = parse_key("A major")
        assert key is not None
        settings = Settings(key, "two-beat", Tempo(120), Guitar(), Provenance("own"))
        lesson, findings = read_lesson(Source("lessons/one.md", text), "one")
        assert [f.message for f in findings] == []
        return resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))

    return run
