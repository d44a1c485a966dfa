"""Brackets of one kind in one another: what the language says, not what a stack would do."""

from __future__ import annotations

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key


@pytest.mark.parametrize(
    ("slots", "rings", "positions"),
    [
        ("ring[ 4:0 3:2 ring[ 2:3 1:2 ] 2:3 3:2 2:3 3:2", [1, 1, 2, 2, 0, 0, 0, 0], [None] * 8),
        (
            "ring[ 4:0 pos2[ 3:2 ring[ 2:3 ] 1:2 ] 2:3 3:2 2:3 3:2",
            [1, 1, 2, 0, 0, 0, 0, 0],
            [None, 2, 2, 2, None, None, None, None],
        ),
        (
            "pos2[ 4:0 3:2 pos5[ 3:7 2:7 ] 2:7 3:7 2:7 3:7",
            [0] * 8,
            [2, 2, 5, 5, None, None, None, None],
        ),
    ],
)
def test_a_bracket_in_its_own_kind_ends_the_earlier_one(slots, rings, positions):
    """One closing bracket then closes the new one, and neither holds for what comes after."""
    lesson, found = read_lesson(Source("one.md", f"```lick one\nD | {slots}\n```\n"), "one")
    assert {finding.rule for finding in found} == {"syntax/bracket-twice"}
    key = parse_key("D major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(100), Guitar(), Provenance("own"))
    book, _ = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    piece = book.piece("one")
    assert piece is not None
    sounds = piece.music.bars[0].upper.sounds
    assert [sound.ring for sound in sounds] == rings
    assert [sound.position for sound in sounds] == positions
