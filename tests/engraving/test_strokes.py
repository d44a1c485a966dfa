"""Path data said briefly: the same points, as fontTools reads them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

from lickwright.engraving.strokes import chained, curve, joined, polygon

Point = tuple[float, float]


def points(data: str) -> list[tuple[str, Point]]:
    """Every point of path data with the command that leads to it."""
    pen = RecordingPen()
    parse_path(data, pen)
    return [(command, point) for command, places in pen.value for point in places]


def lines(data: str) -> set[frozenset[Point]]:
    """The straight strokes of path data, whichever end they begin at."""
    return {
        frozenset((one, other))
        for (_, one), (command, other) in pairwise(points(data))
        if command == "lineTo"
    }


STROKES = [
    ("0", "846", "5692", "846"),
    ("0", "1026", "5692", "1026"),
    ("2300", "1206", "5692", "1206"),
    ("9", "-1", "9", "5"),
    ("-9", "-1", "-12", "50"),
    ("1.5", "2", "3", "2"),
    ("3", "2", "9", "2"),
]


def test_strokes_are_the_same_strokes():
    """Each stroke is there, told in fewer letters; one that is longer by a unit is another."""
    data = "".join(chained(STROKES))
    wanted = {frozenset(((float(x), float(y)), (float(x2), float(y2)))) for x, y, x2, y2 in STROKES}
    assert lines(data) == wanted
    assert len(data) < len("".join(f"M{x} {y}L{x2} {y2}" for x, y, x2, y2 in STROKES))
    assert lines(data.replace("5692", "5693")) != wanted


@pytest.mark.parametrize(
    "corners", ["1605,6068 2383,6068 2383,5978 1605,5978", "1,2 -3,4 5,-6", "1.5,2 3,4 5,6"]
)
def test_a_polygon_keeps_its_corners(corners):
    """The corners of a beam, whole numbers or not."""
    wanted = [tuple(float(n) for n in corner.split(",")) for corner in corners.split()]
    assert [point for _, point in points(polygon(corners))][: len(wanted)] == wanted
    assert polygon(corners)[-1] in "zZ"


def test_a_slur_keeps_its_curve():
    """Verovio's two curves of a slur, there and back; other data is left alone."""
    slur = "M3720,2351 C3839,2409 4147,2356 4242,2261 C4183,2410 3823,2472 3720,2351"
    assert points(curve(slur)) == points(slur)
    assert len(curve(slur)) < len(slur)
    assert curve("M1 1 L2 2") == "M1 1 L2 2"
    assert curve("M1.5,2 C1,2 3,4 5,6") == "M1.5,2 C1,2 3,4 5,6"


def test_lines_of_a_system_are_joined():
    """Lines that touch or lap over are one, a gap for a figure stays, the second height is told back."""
    bars = [
        *(("0", "10", "100", "10"), ("0", "20", "40", "20"), ("60", "20", "100", "20")),
        *(("90", "10", "200", "10"), ("90", "20", "200", "20")),
    ]
    made = joined(bars)
    assert made == [("0", "10", "200", "10"), ("200", "20", "60", "20"), ("40", "20", "0", "20")]
    assert lines("".join(chained(made))) == {
        frozenset(((0, 10), (200, 10))),
        frozenset(((60, 20), (200, 20))),
        frozenset(((0, 20), (40, 20))),
    }
