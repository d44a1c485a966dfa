"""Harmonics against the physics of the string."""

from fractions import Fraction
from math import log2

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.harmonics import NODES, node
from lickwright.theory.pitch import Pitch


def nearest_node(touch: Fraction, partial: int) -> float:
    """Distance in frets from a touching point to the nearest node of a partial."""
    nodes = (-12 * log2(1 - part / partial) for part in range(1, partial))
    return min(abs(float(touch) - place) for place in nodes)


@pytest.mark.parametrize("touch", NODES)
def test_touches_lie_on_nodes(touch: Fraction) -> None:
    """Every touching point is within a fifth of a fret of a node of the partial it names."""
    assert nearest_node(touch, NODES[touch]) < 0.2


def test_a_wrong_node_is_caught() -> None:
    """The comparison sees that fret 6 and fret 8 are no nodes of low partials."""
    for fret in (6, 8):
        assert all(nearest_node(Fraction(fret), partial) > 0.2 for partial in range(2, 7))
        assert node(fret) is None


@pytest.mark.parametrize("touch", NODES)
def test_sounding_pitch(touch: Fraction) -> None:
    """Half steps and cents add up to the partial's place in the harmonic series."""
    harmonic = node(touch)
    assert harmonic is not None
    assert 100 * harmonic.semitones + harmonic.cents == pytest.approx(1200 * log2(harmonic.partial))
    assert abs(harmonic.cents) < 50


def test_values_of_the_handbook() -> None:
    """Octave, twelfth, two octaves and on: 12, 19, 24, 28, 31, 34 (overtone series)."""
    touches = (12, 7, 5, 4, Fraction("3.2"), Fraction("2.7"))
    found = [node(touch) for touch in touches]
    assert [harmonic.semitones for harmonic in found if harmonic] == [12, 19, 24, 28, 31, 34]
    over_seven = node(7)
    assert over_seven is not None
    sounding = Guitar().open_midi(6) + over_seven.semitones
    assert sounding == Pitch("B", 0, 3).midi
    assert over_seven.cents == pytest.approx(1.955, abs=1e-3)  # 247.22 Hz against 246.94


def test_stopped_harmonics() -> None:
    """Stopped at 2 and touched at 14 the octave sounds, at 9 the twelfth, at 7 two octaves."""
    assert [node(touch, 2) for touch in (14, 9, 7)] == [node(12), node(7), node(5)]
    assert node(8, 2) is None
    assert node(2, 2) is None
    assert node(1, 2) is None
