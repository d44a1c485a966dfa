"""Every piece of the guide can be set: signs, voices, cut excerpts and all."""

from __future__ import annotations

import pytest

from lickwright.engraving.document import document
from lickwright.model.address import Address


@pytest.mark.parametrize("view", ["both", "staff", "tab"])
def test_every_piece_becomes_a_document(guide, view):
    """Every sound of every piece has its notes in it."""
    assert guide.book is not None
    for piece in guide.book.pieces:
        made = document(piece.music, view)
        entries = {entry.sound.address for entry in made.score.entries}
        assert entries == {s.address for bar in piece.music.bars for line in bar.lines for s in line.sounds}


def test_an_excerpt_of_the_lower_voice_stands_alone(guide):
    """It is the only voice of its bars, and its sounds keep their addresses."""
    assert guide.book is not None
    piece = next(p for p in guide.book.pieces if p.kind == "excerpt" and p.of == "two-bells")
    assert not piece.music.has_lower
    score = document(piece.music, "both").score
    assert [entry.sound.address for entry in score.entries] == [
        Address(1, n, lower=True) for n in (1, 2, 3, 4)
    ]
