"""Fret geometry against the handbook's table of millimetres."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lickwright.instrument.fretboard import fret_position, span


def disagreements(rows: list[dict[str, str]]) -> list[str]:
    """Cells of the handbook's table that differ by more than its rounding."""
    faults = []
    for row in rows:
        fret = int(row["fret"])
        for scale_length in (628, 648, 650):
            ours = fret_position(fret, scale_length)
            if abs(ours - float(row[f"{scale_length} mm"])) > 0.006:
                faults.append(f"fret {fret} at {scale_length} mm: {ours:.2f}")
        if abs(span(fret - 1, fret, 648) - float(row["width of that fret space (648)"])) > 0.006:
            faults.append(f"space {fret}")
    return faults


def test_frets_of_the_handbook(table) -> None:
    """Every fret lies where the handbook puts it, on three scale lengths."""
    assert disagreements(table("frets")) == []


def test_a_wrong_fret_is_caught(table) -> None:
    """The comparison sees a fret that is half a millimetre off."""
    rows = table("frets")
    rows[4]["650 mm"] = "163.55"
    assert disagreements(rows) == ["fret 5 at 650 mm: 163.05"]


def test_published_first_fret() -> None:
    """A published formula page gives 36.4816967 mm for fret 1 at 650 mm."""
    assert fret_position(1, 650) == pytest.approx(36.4816967, abs=1e-6)


def test_spans_of_the_handbook(table) -> None:
    """Spans between frets are the handbook's, in either order."""
    for row in table("spans"):
        low, high = map(int, row["frets"].split("-"))
        assert span(low, high, 648) == pytest.approx(float(row["mm"]), abs=0.06)
        assert span(high, low, 648) == span(low, high, 648)


@given(st.floats(0, 24), st.integers(0, 7), st.floats(500, 700))
def test_capo_and_octave(fret: float, capo: int, scale_length: float) -> None:
    """A capo counts as so many frets; twelve frets on, half of what remains is gone."""
    place = fret_position(fret, scale_length, capo)
    assert place == pytest.approx(fret_position(fret + capo, scale_length))
    octave = fret_position(fret + 12, scale_length, capo)
    assert scale_length - octave == pytest.approx((scale_length - place) / 2)
    assert span(fret, fret + 12, scale_length, capo) == pytest.approx(octave - place)
