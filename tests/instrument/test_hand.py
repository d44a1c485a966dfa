"""The reach of the hand, as the handbook of the project states it."""

import pytest

from lickwright.instrument.fretboard import span
from lickwright.instrument.hand import REACHES, WIDEST, Reach, reach


def test_wider_pairs_reach_further() -> None:
    """Each pair's reach contains those of the pairs inside it; possible is beyond comfortable."""
    for (low, high), limit in REACHES.items():
        assert limit.comfortable < limit.possible
        for (inner_low, inner_high), inner in REACHES.items():
            if low <= inner_low and inner_high <= high and (low, high) != (inner_low, inner_high):
                assert inner.comfortable < limit.comfortable
                assert inner.possible < limit.possible


def test_known_shapes() -> None:
    """Frets 5-9 and 1-4 are comfortable, 1-5 is a stretch, 1-8 is out of reach (at 648 mm)."""
    assert span(5, 9, 648) < WIDEST.comfortable
    assert span(1, 4, 648) < WIDEST.comfortable
    assert WIDEST.comfortable < span(1, 5, 648) < WIDEST.possible
    assert span(1, 8, 648) > WIDEST.possible


def test_pairs() -> None:
    """Pairs go in either order; there is no fifth finger and no pair of one."""
    assert reach(3, 1) == reach(1, 3) == Reach(88.0, 108.0)
    for pair in ((1, 1), (1, 5), (0, 1)):
        with pytest.raises(KeyError):
            reach(*pair)
