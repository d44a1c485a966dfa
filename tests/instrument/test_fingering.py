"""Fingerings: the right pitches, the cheapest way, the bounds of the neck."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.instrument.fingering import fingering_path, place
from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import Tuning, parse_tuning

OPEN_D = parse_tuning("D2 A2 D3 F#3 A3 D4")
BASS = parse_tuning("E1 A1 D2 G2")
SEVEN = parse_tuning("B1 E2 A2 D3 G3 B3 E4")
assert OPEN_D
assert BASS
assert SEVEN
guitars = st.builds(
    Guitar,
    st.sampled_from([Guitar().tuning, OPEN_D, BASS, SEVEN]),
    st.integers(0, 5),
    st.sampled_from([12, 22, 24]),
)


@given(guitars, st.lists(st.integers(28, 90), max_size=8))
def test_path_plays_the_line(guitar: Guitar, line: list[int]) -> None:
    """Each place sounds its pitch and is on the neck; none is given only when one is missing."""
    path = fingering_path(line, guitar)
    if path is None:
        assert any(not place(midi, guitar) for midi in line)
        return
    assert [guitar.midi(string, fret) for string, fret in path] == line
    assert all(guitar.has_string(string) and guitar.has_fret(fret) for string, fret in path)


@given(guitars, st.integers(20, 100), st.integers(1, 12))
def test_places_are_all_places(guitar: Guitar, midi: int, near: int) -> None:
    """Every string that holds the pitch is offered once, those in the position first."""
    places = place(midi, guitar, near)
    every = {
        (string, fret)
        for string, fret in product(range(1, guitar.strings + 1), range(guitar.frets + 1))
        if guitar.has_fret(fret) and guitar.midi(string, fret) == midi
    }
    assert set(places) == every
    assert len(places) == len(every)
    inside = [fret == 0 or near <= fret < near + 4 for _, fret in places]
    assert inside == sorted(inside, reverse=True)


@pytest.mark.parametrize(
    ("tuning", "line", "expected"),
    [
        # the scale of G in first position, as every method prints it (common practice)
        (
            "E2 A2 D3 G3 B3 E4",
            [43, 45, 47, 48, 50, 52, 54, 55, 57, 59, 60, 62, 64, 66, 67],
            "6:3 5:0 5:2 5:3 4:0 4:2 4:4 3:0 3:2 2:0 2:1 2:3 1:0 1:2 1:3",
        ),
        ("E1 A1 D2 G2", [28, 31, 33, 35, 36, 38], "4:0 4:3 3:0 3:2 3:3 2:0"),
    ],
)
def test_first_position(tuning: str, line: list[int], expected: str) -> None:
    """What lies in first position stays there, open strings open."""
    strings = parse_tuning(tuning)
    assert isinstance(strings, Tuning)
    path = fingering_path(line, Guitar(strings))
    assert path is not None
    assert " ".join(f"{string}:{fret}" for string, fret in path) == expected


def test_bounded_positions() -> None:
    """Between a lowest and a highest position no fretted note lies outside them."""
    line = [57, 59, 61, 62, 64, 66, 68, 69, 71, 73, 74]
    path = fingering_path(line, Guitar(), lowest=5, highest=7)
    assert path is not None
    assert all(fret == 0 or 5 <= fret <= 10 for _, fret in path)
    assert fingering_path([86], Guitar(), highest=5) is None


def test_nothing_to_play() -> None:
    """An empty line has an empty path, a pitch below the neck none."""
    assert fingering_path([], Guitar()) == ()
    assert fingering_path([20], Guitar()) is None
    assert place(20, Guitar()) == ()
