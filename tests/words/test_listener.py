"""Who only listens holds the same music: every piece of every course, given back from its words."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from from_model import heard_from
from harmony_heard import quality
from spoken import COURSES, pieces, said, typed, unheard

from lickwright.theory.quality import QUALITIES


@pytest.mark.parametrize("course", COURSES)
def test_every_piece_is_given_back(course: str) -> None:
    """Time, hands, signs, form and note names come back from the words as the model has them."""
    found = pieces(course)
    assert len(found) > 10
    missed = {
        piece.name: lost for piece in found if (lost := unheard(said(piece.music), heard_from(piece.music)))
    }
    assert missed == {}


@pytest.mark.parametrize("name", ["meters", "thumb", "double-dots"])
def test_what_no_course_has_is_given_back(name: str) -> None:
    """Beats of every kind of meter, lengths of no single note, the thumb over the edge."""
    piece = next(piece for piece in typed() if piece.name == name)
    assert unheard(said(piece.music), heard_from(piece.music)) == []


def test_groups_that_begin_with_silence_are_given_back() -> None:
    """``(. 4:2 3:2 2:2 1:0)/4`` is five in the time of four from its rest on; so with a held note."""
    piece = next(piece for piece in typed() if piece.name == "groups")
    assert unheard(said(piece.music), heard_from(piece.music)) == []


def test_a_pick_and_a_finger_are_given_back() -> None:
    """``dm`` under a double stop: the lower string by a down-stroke, the upper by the middle finger."""
    piece = next(piece for piece in typed() if piece.name == "pick-and-finger")
    assert unheard(said(piece.music), heard_from(piece.music)) == []


def test_the_guide_and_the_demo_have_every_kind_of_piece() -> None:
    """Licks, excerpts, choruses and scales; variations; second voices; excerpts that begin inside a bar."""
    found = [piece for course in COURSES for piece in pieces(course)]
    assert {piece.kind for piece in found} == {"lick", "excerpt", "chorus", "scale"}
    assert any(piece.of and piece.kind == "lick" for piece in found)
    assert any(piece.music.has_lower for piece in found)
    assert any(bar.offset and bar.number for piece in found for bar in piece.music.bars)


def test_the_listener_reads_words_only() -> None:
    """It knows neither the package that speaks nor anything else of the builder."""
    for name in ("heard", "phrases", "harmony_heard", "headings", "tones_heard", "order_heard", "listener"):
        tree = ast.parse((Path(__file__).parent / f"{name}.py").read_text(encoding="utf-8"))
        imported = [node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
        imported += [
            one.name for node in ast.walk(tree) if isinstance(node, ast.Import) for one in node.names
        ]
        assert imported
        assert [module for module in imported if module.startswith("lickwright")] == []


def test_every_quality_of_chord_is_told_by_its_spoken_name() -> None:
    """Stacked by ear from the name, the notes are those of the table."""
    heard = {name: quality(row.spoken) for name, row in QUALITIES.items()}
    assert {n: sorted(h) for n, h in heard.items()} == {n: sorted(q.tones) for n, q in QUALITIES.items()}
