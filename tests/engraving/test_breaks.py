"""Where lines begin: whole beats, two or four bars a line, no pickup alone; and what Verovio really drew."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from engraved_licks import MUSIC, read

from lickwright.building.proofing import proof_course
from lickwright.engraving import breaks
from lickwright.engraving.breaks import line_starts
from lickwright.engraving.engrave import engrave
from lickwright.engraving.score import Score
from lickwright.model.music import Music
from lickwright.model.orders import ScoreOrder

ROOT = Path(__file__).parents[2]
COURSES = ("content", "tests/courses/low-water", "tests/courses/every-sign")
PLAIN = "A | 5:0 5:2 5:4 4:2 4:4 4:2 5:4 5:2\n"
SPARSE = "A | 5:0 - - - 4:2 - - -\n"
WHOLE = "A | 5:0 - - - - - - -\n"
DENSE = "A | 5:0 5:2 5:4 4:2 4:4 4:2 5:4 5:2 5:0 5:2 5:4 4:2 4:4 4:2 5:4 5:2\n"


def lines(music: Music, width: str) -> list[int]:
    """How many bars each line holds, a pickup counted with the bar it leads to."""
    starts = [0, *sorted(line_starts(Score.of(music, "both"), width)), len(music.bars)]
    counts = [end - start for start, end in pairwise(starts)]
    counts[0] -= music.bars[0].length < music.bars[0].meter.length and len(music.bars) > 1
    return counts


def broken_beats(music: Music, width: str) -> list[int]:
    """Numbers of the bars after which a line ends although a beat goes on."""
    found = []
    for start in line_starts(Score.of(music, "both"), width):
        bar = music.bars[start - 1]
        inside = (bar.offset + bar.length) % bar.meter.beat
        if inside and not bar.closes:
            found.append(bar.number)
    return found


@pytest.fixture(scope="module")
def pieces() -> list[Music]:
    """All music of the three courses."""
    return [piece.music for course in COURSES for piece in proof_course(ROOT / course).book.pieces]


@pytest.mark.parametrize("width", ["wide", "narrow"])
def test_no_line_ends_inside_a_beat(pieces: list[Music], width: str) -> None:
    """In every piece of the courses and of the tests."""
    assert len(pieces) > 150
    assert [
        broken_beats(music, width) for music in (*pieces, *MUSIC.values()) if broken_beats(music, width)
    ] == []


def cut_in_two(music: Music, index: int) -> Music:
    """The music with a bar that ends half a beat early, and the next that begins there."""
    bars = list(music.bars)
    bars[index] = replace(bars[index], length=bars[index].length - Fraction(1, 2))
    bars[index + 1] = replace(bars[index + 1], offset=Fraction(7, 2), length=Fraction(9, 2))
    return replace(music, bars=tuple(bars))


def test_a_beat_cut_in_two_keeps_its_halves_on_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wherever a bar ends inside a beat, its line goes on; lines broken before every bar are told."""
    music = read("key: A major\n\n" + PLAIN * 4)
    for index in range(3):
        for width in ("wide", "narrow"):
            assert broken_beats(cut_in_two(music, index), width) == []
    monkeypatch.setitem(globals(), "line_starts", lambda score, _: frozenset(range(1, len(score.music.bars))))
    assert broken_beats(cut_in_two(music, 1), "wide") == [2]


@pytest.mark.parametrize(
    ("text", "wide", "narrow"),
    [
        (PLAIN * 2, [2], [1, 1]),
        (PLAIN * 4, [2, 2], [1, 1, 1, 1]),
        (SPARSE * 4, [4], [1, 1, 1, 1]),
        (SPARSE * 8, [4, 4], [1] * 8),
        (WHOLE * 8, [4, 4], [2, 2, 2, 2]),
        (PLAIN * 8, [2, 2, 2, 2], [1] * 8),
        (f"step: 1/16\n\n{DENSE * 2}", [2], [1, 1]),
    ],
    ids=["two", "four", "four sparse", "eight sparse", "whole notes", "eight", "sixteenths"],
)
def test_two_or_four_bars_a_line(text: str, wide: list[int], narrow: list[int]) -> None:
    """Eighths stand two by two, halves four by four; a narrow line holds one bar, or two of hardly a note."""
    head = "key: A major\n" + ("" if text.startswith("step") else "\n")
    music = read(head + text)
    assert (lines(music, "wide"), lines(music, "narrow")) == (wide, narrow)


def test_mostly_two_or_four(pieces: list[Music]) -> None:
    """In the courses a wide line holds two or four bars, seldom one or three (own threshold: 8 of 10)."""
    counts = [count for music in pieces if len(music.bars) % 2 == 0 for count in lines(music, "wide")]
    assert len(counts) > 100
    assert sum(count in (2, 4) for count in counts) >= 0.8 * len(counts)


def test_a_pickup_is_never_alone(pieces: list[Music]) -> None:
    """It shares the line of the bar it leads to."""
    led = [music for music in pieces if len(music.bars) > 1 and music.bars[0].number == 0]
    assert len(led) > 5
    for music in led:
        for width in ("wide", "narrow"):
            assert 1 not in line_starts(Score.of(music, "both"), width)


@pytest.mark.parametrize("view", ["both", "tab", "staff"])
@pytest.mark.parametrize("width", ["wide", "narrow"])
def test_what_is_drawn_begins_its_lines_there(view: str, width: str) -> None:
    """The systems that Verovio drew hold just the bars between the breaks, in every view."""
    for music in MUSIC.values():
        starts = sorted(line_starts(Score.of(music, "both"), width))
        drawn = engrave(ScoreOrder(music, "x", width, view)).systems
        number = {bar.number: index for index, bar in enumerate(music.bars)}
        assert [number[system.bars[0].number] for system in drawn][1:] == starts
        assert sum(len(system.bars) for system in drawn) == len(music.bars)


def test_more_room_takes_more_bars(monkeypatch: pytest.MonkeyPatch) -> None:
    """Planted fault: with half the room the same music needs more lines, so the room is really counted."""
    music = read("key: A major\n\n" + SPARSE * 8)
    before = len(lines(music, "wide"))
    less = breaks._LINES["wide"]
    monkeypatch.setitem(
        breaks._LINES, "wide", type(less)(less.room / 2, less.squeezed, less.most, less.counts)
    )
    assert len(lines(music, "wide")) > before
