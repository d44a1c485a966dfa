"""Positions, and the way of the index finger: small cases by hand, the rest against every path there is."""

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.instrument.position import (
    Standing,
    calmest,
    covers,
    fitting,
    least_moved,
    moves,
    standing,
    together,
)

WAYS = st.lists(
    st.builds(lambda low, wide: Standing(low, low + wide), st.integers(1, 7), st.integers(0, 3)),
    min_size=1,
    max_size=5,
)


def every_path(way: list[Standing]) -> list[tuple[int, ...]]:
    """All paths, one by one: slow, and plainly right."""
    return list(product(*(range(one.lowest, one.highest + 1) for one in way)))


def test_a_position_covers_six_frets() -> None:
    """Fifth position: frets 4 to 9; open position: all up to 5."""
    assert [fret for fret in range(1, 13) if covers(5, fret)] == [4, 5, 6, 7, 8, 9]
    assert [fret for fret in range(1, 13) if covers(0, fret)] == [1, 2, 3, 4, 5]


def test_from_where_a_fret_is_held() -> None:
    """Fret 7: positions 3 to 8, with the third finger 4 to 6; never below the first fret."""
    assert standing(7) == Standing(3, 8)
    assert standing(7, 3) == Standing(4, 6)
    assert standing(1) == Standing(1, 2)
    assert standing(1, 4) == Standing(1, 1)
    assert all(covers(place, 7) for place in range(3, 9))


def test_notes_together() -> None:
    """A chord narrows the positions; a stretch that no position serves gives the middle."""
    assert together([standing(5), standing(8)]) == Standing(4, 6)
    assert together([standing(1), standing(12)]) == Standing(5, 5)


def test_the_hand_moves_when_it_must() -> None:
    """Second position serves a bar; the twelfth fret then takes one move."""
    assert least_moved([standing(2), standing(5), standing(3)]) == (1, 1, 1)
    path = least_moved([standing(2), standing(5), standing(12)])
    assert path == (3, 3, 8)
    assert moves(path) == 5
    assert least_moved([]) == calmest([], lambda *_: 0.0) == ()


@given(WAYS)
def test_no_path_moves_less(way: list[Standing]) -> None:
    """The path is one of those there are, and none of them goes fewer frets."""
    path = least_moved(way)
    paths = every_path(way)
    assert path in paths
    assert moves(path) == min(map(moves, paths))


@given(WAYS, st.lists(st.integers(1, 3), min_size=5, max_size=5))
def test_no_path_is_calmer(way: list[Standing], times: list[int]) -> None:
    """The least haste in all, whatever time each move has."""

    def excess(number: int, before: int, after: int) -> float:
        return max(0, abs(after - before) - times[number])

    def haste(path: tuple[int, ...]) -> float:
        return sum(excess(n, *move) for n, move in enumerate(pairwise(path), 1))

    path = calmest(way, excess)
    paths = every_path(way)
    assert path in paths
    assert haste(path) == min(map(haste, paths))


@pytest.mark.parametrize(
    ("frets", "near", "position"),
    [
        ([10, 12, 9, 12], 5, 9),
        ([2, 4, 2, 5], 2, 2),
        ([1, 3, 2], 0, 1),
        ([7], 2, 4),
        ([], 1, None),
    ],
)
def test_the_position_that_fits(frets: list[int], near: int, position: int | None) -> None:
    """Most notes inside, those a finger a fret first, then the one nearest to what was thought."""
    assert fitting(frets, near) == position
