"""Wide reaches of a fingered scale, in mm by the luthier's rule."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.scale_fingering.reaches import widest
from lickwright.instrument.scale_fingering.step import Step

GUITAR = Guitar()
LUTHIER = 17.817


def luthier_mm(low: int, high: int) -> float:
    left = [648 * (1 - 1 / LUTHIER) ** fret for fret in (low, high)]
    return left[0] - left[1]


@pytest.mark.parametrize(
    ("steps", "ringing", "frets"),
    [
        pytest.param("6:1:1 6:3:2 6:5:4", False, (1, 5), id="three on a string, low on the neck"),
        pytest.param("6:8:1 6:10:2 6:12:4", False, None, id="the same shape higher up"),
        pytest.param("6:2:1 5:4:2", True, (2, 4), id="two fingers held together"),
        pytest.param("6:2:1 5:4:2", False, None, id="the same two, one after the other"),
        pytest.param("6:2:1 6:4:2", True, None, id="on one string nothing is held together"),
        pytest.param("6:1:1 5:0:0 4:5:4", True, (1, 5), id="an open string between"),
        pytest.param("6:1:1 5:0:0 4:0:0 3:5:4", True, None, id="three notes later the hand is free"),
        pytest.param("6:5:4 5:1:1", False, (1, 5), id="downward"),
        pytest.param("6:2:1 5:9:4", False, None, id="so far the hand moves"),
        pytest.param("6:9:1 5:5:4", False, None, id="crossed fingers are a move"),
        pytest.param("6:0:0 5:0:0", True, None, id="open strings"),
    ],
)
def test_the_widest_reach(steps: str, ringing: bool, frets: tuple[int, int] | None) -> None:
    """Found where the hand must open beyond comfort, and only there."""
    made = [Step(int(s), int(f), finger) for s, f, finger in (step.split(":") for step in steps.split())]
    wide = widest(made, GUITAR, ringing=ringing)
    if frets is None:
        assert wide is None
        return
    assert wide is not None
    assert tuple(sorted((wide.one.fret, wide.other.fret))) == frets
    assert wide.millimetres == pytest.approx(luthier_mm(*frets), rel=1e-3)


def test_a_capo_and_a_short_neck_make_it_smaller() -> None:
    """Four frets at the nut are wide, above a capo or on a short neck they are not."""
    steps = [Step(6, 1, "1"), Step(6, 5, "4")]
    assert widest(steps, GUITAR, ringing=False) is not None
    assert widest(steps, replace(GUITAR, capo=4), ringing=False) is None
    assert widest(steps, replace(GUITAR, scale_length=560.0), ringing=False) is None
