"""What orders leave out is what renderers do not read: the same bytes with it and without it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from lickwright.building.plan import Keys
from lickwright.building.proofing import proof_course
from lickwright.building.recording import record
from lickwright.engraving.compact import engrave_compact
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Picking, Provenance, Tempo
from lickwright.model.music import Music, Piece
from lickwright.model.orders import Order
from lickwright.model.reduced import for_score, for_sound
from lickwright.model.timeline import resolve
from lickwright.pages.practice import plan_piece
from lickwright.performance.perform import perform
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

CONTENT = Path(__file__).parents[2] / "content"
LICK = """title: Porch step
key: A major

A7 | 5:0 5:4 4:2 s 4:4  3:2 - 2:0 2:2
   lh    | 0   3   1   1    1     0   1
   names | A   C#  E   F#   A     B   C#
D7 | (3:0)3:2 h 3:4 4:4 4:2  4:0 5:4 1:20/
"""
FURTHER = (
    LICK.replace("1:20/", "1:2").replace("   names | A   C#  E   F#   A     B   C#\n", ""),
    "key: E minor\nfeel: swing\n\nEm7 | 6:3 b 2 - - 5:0 2:3^ - 1:0\nB7 | 5:2 - 4:1 x 3:2 2:0 . .\n",
)


def lick(text: str = LICK, guitar: Guitar | None = None) -> Piece:
    settings = Settings(parse_key("A major"), "straight", Tempo(120), guitar or Guitar(), Provenance("own"))
    lesson, _ = read_lesson(Source("lessons/one.md", f"# One\n\n```lick test\n{text}```\n"), "one")
    book, _ = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    return book.pieces[0]


def keys(piece: Piece) -> tuple[set[str], set[str]]:
    """Return the keys of a piece's scores and of its sounds."""
    keys = Keys(lambda _: "1")
    plan = plan_piece(piece, "test", sound=True)

    def of(*orders: Order) -> set[str]:
        return {keys.key(order) for order in orders}

    return of(plan.wide, plan.narrow), of(*plan.sounds)


@pytest.fixture(scope="module")
def pieces() -> tuple[Piece, ...]:
    """The pieces of the demo course and three licks that use more signs."""
    book = proof_course(CONTENT).book
    assert book is not None
    return (*book.pieces, *map(lick, (LICK, *FURTHER)))


def test_a_score_is_drawn_alike(pieces: tuple[Piece, ...]) -> None:
    """Systems and glyphs are the same bytes, drawn from the whole music and from what is left of it."""
    assert any(tone.name for tone in tones(pieces[-3].music))
    for piece in (*pieces[:4], *pieces[-3:]):
        order = plan_piece(piece, "p", sound=False).narrow
        assert order.music == for_score(piece.music)
        assert engrave_compact(order) == engrave_compact(replace(order, music=piece.music))


@pytest.mark.parametrize("apart", [5, pytest.param(1, marks=pytest.mark.slow)])
def test_a_sound_is_performed_alike(pieces: tuple[Piece, ...], apart: int) -> None:
    """Every event of every piece is the same, and of one the encoded sound."""
    assert len(pieces) > 50
    for piece in (*pieces[::apart], *pieces[-3:]):
        for picking in (Picking(), piece.music.picking):
            whole, left = (replace(music, picking=picking) for music in (piece.music, for_sound(piece.music)))
            assert perform(left, 120) == perform(whole, 120)
    (order, *_) = plan_piece(lick(), "p", sound=True).sounds
    assert record(order) == record(replace(order, music=lick().music))


def tones(music: Music) -> list[object]:
    return [tone for bar in music.bars for line in bar.lines for sound in line.sounds for tone in sound.tones]


@pytest.mark.parametrize(
    ("edit", "scores", "sounds"),
    [
        (lambda text: text.replace("   names | A   C#  E   F#   A     B   C#\n", ""), True, True),
        (lambda text: text.replace("D7 |", "D9 |"), False, True),
        (lambda text: text.replace("0   3   1", "0   2   1"), False, True),
        (lambda text: text.replace("5:0 5:4", "5:0 5:2"), False, False),
    ],
)
def test_an_edit_makes_anew_what_shows_it(edit: Callable[[str], str], scores: bool, sounds: bool) -> None:
    """Names leave all as made, a chord or a finger the sound; a fret makes both anew."""
    assert edit(LICK) != LICK
    before, after = keys(lick()), keys(lick(edit(LICK)))
    assert (before[0] == after[0], before[1] == after[1]) == (scores, sounds)


@pytest.mark.parametrize(
    ("guitar", "scores", "sounds"),
    [
        (Guitar(scale_length=628.0, hand="left"), True, True),
        (Guitar(frets=24), True, False),
        (Guitar(sound="acoustic"), True, False),
        (Guitar(capo=2), False, False),
    ],
)
def test_another_guitar_makes_anew_what_it_changes(guitar: Guitar, scores: bool, sounds: bool) -> None:
    """A longer neck is heard in the slide up at the end of this lick; in a lick without it it is not."""
    before, after = keys(lick()), keys(lick(guitar=guitar))
    assert (before[0] == after[0], before[1] == after[1]) == (scores, sounds)
    if guitar.frets != Guitar().frets:
        assert keys(lick(FURTHER[0])) == keys(lick(FURTHER[0], guitar))


def test_what_is_read_may_not_be_left_out() -> None:
    """Without the key a score comes out otherwise, with another neck a sound: the checks above can fail."""
    music, key = lick().music, parse_key("Eb major")
    assert key is not None
    order = plan_piece(lick(), "p", sound=False).wide
    assert engrave_compact(order) != engrave_compact(replace(order, music=replace(music, key=key)))
    assert perform(music, 120) != perform(replace(music, guitar=Guitar(frets=24)), 120)
