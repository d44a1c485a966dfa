"""What each string does: leads without a stroke, and how long a tone sounds."""

from __future__ import annotations

from fractions import Fraction

import pytest

from lickwright.checks.strings import list_held, list_leads
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key


def _music(bars: str) -> Music:
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"))
    lesson, found = read_lesson(Source("lessons/one.md", f"```lick one\n{bars}\n```\n"), "one")
    assert found == ()
    return resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))[0].pieces[0].music


@pytest.mark.parametrize(
    ("bars", "leads"),
    [
        ("A | 3:2 - h 3:4 - 4:2 - 5:0 -", [("h", 2, 4)]),
        ("A | 3:2+2:2 - s 3:4+2:5 - 4:2 - 5:0 -", [("s", 2, 4), ("s", 2, 5)]),
        ("A | g(3:1) 3:2 - 4:2 - 5:0 - - -", [("h", 1, 2)]),
        ("A | g(3:4) 3:2 - 4:2 - 5:0 - - -", [("p", 4, 2)]),
        ("A | g(3:5) s 3:6 - 4:2 - 5:0 - - -", [("s", 5, 6)]),
        ("A | g(4:1) 3:2 - 4:2 - 5:0 - - -", []),
        ("A | 3:2 - - - - - - h\nA | 3:4 - - - - - - -", [("h", 2, 4)]),
    ],
)
def test_leads(bars: str, leads: list[tuple[str, int, int]]) -> None:
    """Joins string by string, over bar lines, and grace notes on the sound's own string."""
    found = [(lead.kind.value, lead.before.fret, lead.after.fret) for lead in list_leads(_music(bars))]
    assert found == leads


@pytest.mark.parametrize(
    ("bars", "ends"),
    [
        ("A | 4:2 3:2 2:2 1:0 4:2 - - -", ["1/2", "1", "3/2", "2", "4"]),
        ("A | ring[4:2 3:2 2:2 1:0] 4:2 - - -", ["2", "2", "2", "2", "4"]),
        ("A | ring[4:2 3:2 2:2 4:4] 4:2 - - -", ["3/2", "2", "2", "2", "4"]),
        ("A | 3:2+2:2 - h 3:4 - 4:2 - - -", ["1", "2", "2", "4"]),
    ],
)
def test_held(bars: str, ends: list[str]) -> None:
    """A string sounds to the end of its note, its bracket, or its next use; a string left alone rings on."""
    assert [held.end for held in list_held(_music(bars))] == [Fraction(end) for end in ends]
