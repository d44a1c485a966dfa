"""Lines: which pitches harmony judges, which notes are neighbours, which chord stands under them."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis.line import draw_lines, line_pitches


@pytest.mark.parametrize(
    ("note", "pitches"),
    [
        ("3:7", [(62, False, False)]),
        ("3:7b9", [(64, False, True)]),
        ("3:7b9r7", [(64, False, True), (62, False, False)]),
        ("3:7pb9", [(64, False, True)]),
        ("3:7pb9r7", [(64, False, True), (62, False, False)]),
        ("3:7b7.5", [(62, True, True)]),
        ("3:7b7.5r7", [(62, True, True)]),
        ("3:7b8b9", [(63, False, True), (64, False, True)]),
        ("3:x", []),
        ("3:<12>", [(67, False, False)]),
        ("3:0nb2", [(57, False, True)]),
    ],
)
def test_line_pitches(note: str, pitches: list[tuple[int, bool, bool]]) -> None:
    """A bend counts by its target, a release by where it lands, a curl by the fretted note."""
    tone = read_piece(f"A | {note} - - - 3:2 - - -").music.bars[0].upper.sounds[0].tones[0]
    assert list(line_pitches(tone)) == pitches


def test_a_late_bend_is_a_note_of_its_own() -> None:
    """The string bent later, and let down later still, is judged each time."""
    (line,) = draw_lines(read_piece("A7 | 3:7 - 3:b9 - 3:r7 - 3:6 -").music).melodic
    assert [note.pitch for note in line] == [62, 64, 62, 61]


def test_double_stops_make_two_lines() -> None:
    """Top and bottom notes have neighbours of their own; a note between has none."""
    lines = draw_lines(read_piece("A | 4:2+3:2+2:2 - 4:4+3:4+2:5 - 3:6+2:5 - 2:2 -").music)
    assert [[note.pitch for note in line] for line in lines.melodic] == [[61, 64, 64, 61], [52, 54, 61, 61]]
    assert [note.pitch for note in lines.inner] == [57, 59]


def test_two_voices_are_two_lines() -> None:
    """The lower voice is a line by itself, and the lowest."""
    lines = draw_lines(read_piece("A | 1:5 - - - 1:4 - - -\n  low | 5:0 - 4:2 - 5:0 - 4:2 -").music)
    assert [[note.pitch for note in line] for line in lines.melodic] == [[69, 68], [45, 52, 45, 52]]
    assert [note.lowest for note in lines.melodic[1]] == [True] * 4
    assert not lines.melodic[0][0].lowest


def test_repeats_are_unfolded() -> None:
    """A repeated bar stands twice in the line, with its endings in turn."""
    text = "A |: 5:0 - 5:4 - 4:2 - 3:2 -\n1. A | 4:2 - - - - - - - :|\n2. A | 5:0 - - - - - - -"
    (line,) = draw_lines(read_piece(text).music).melodic
    assert [note.pitch for note in line] == [45, 49, 52, 57, 52, 45, 49, 52, 57, 45]


def test_changes_follow_the_margins() -> None:
    """A chord that only goes on is no change; a push stands half a beat early; N.C. has no harmony."""
    lines = draw_lines(
        read_piece("A7 | 5:0 - - - - - - -\nA7 D7@4& | 5:0 - - - - - - -\nN.C. | 5:0 - - - - - - -").music
    )
    quarters = [(float(lines.grid.quarters(c.start)), c.symbol.symbol, c.harmony) for c in lines.changes]
    assert quarters == [(0.0, "A7", True), (7.5, "D7", True), (8.0, "N.C.", False)]


def test_weights_of_a_pickup_count_from_its_bar() -> None:
    """A pickup of two eighths stands on the last beat and its half."""
    (line,) = draw_lines(read_piece("pickup: 1/4\n\n| 5:2 5:4\nA | 5:0 - 5:4 - 4:2 - 5:4 -").music).melodic
    assert [note.weight for note in line] == [2, 1, 4, 2, 3, 2]


def test_what_a_bend_comes_to_later_stands_between_the_beats() -> None:
    """Bent on beat 1 and let down before beat 2: the note that is let down to has no weight of the meter."""
    (line,) = draw_lines(read_piece("A | 3:7b9r7 - - - 3:2 - - -").music).melodic
    assert [(note.pitch, note.weight) for note in line] == [(64, 4), (62, 1), (57, 3)]
