"""The model of where ink lies: glyphs as large as the music font's own table says, free heights free."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
import verovio

from lickwright.engraving.overlay.ink import GAP, Box, Ink, glyph_box

DATA = Path(verovio.__file__).parent / "data"
TABLE = {
    glyph.get("c", ""): tuple(float(glyph.get(name, "0")) for name in "xywh")
    for glyph in ET.parse(DATA / "Leipzig.xml").getroot()
}
"""Left, foot (upwards), width and height of each glyph, as Verovio's font was measured by its makers."""
GLYPHS = ("E0A2", "E0A3", "E0A4", "E262", "E260", "E261", "E240", "E4C0", "E566", "E4A0", "E610", "E612")


@pytest.mark.parametrize("code", GLYPHS)
def test_glyphs_are_as_large_as_the_font_says(code: str) -> None:
    """Within twelve units of a thousand, for a curve's handles count; another outline has another size."""
    left, foot, width, height = TABLE[code]
    wanted = (left, -(foot + height), left + width, -foot)
    found = glyph_box((DATA / "Leipzig" / f"{code}.xml").read_text())
    assert found == pytest.approx(wanted, abs=12)
    assert glyph_box('<path d="M0 0l10 10z"/>') != pytest.approx(wanted, abs=12)


BOXES: list[Box] = [(0, 0, 100, 50), (80, -120, 200, -60), (300, -500, 400, 500), (150, -300, 160, -280)]


@pytest.mark.parametrize("under", [False, True])
@pytest.mark.parametrize("left", range(-100, 500, 45))
def test_what_is_cleared_touches_nothing(left: int, under: bool) -> None:
    """A box moved by what ``clear`` says keeps its distance; moved by a little less, it would not."""
    ink = Ink(0, 100)
    ink.add(*BOXES)
    by = ink.clear([(left, 0, left + 60, 40)], under=under)

    def near(way: float) -> bool:
        moved = way if under else -way
        top, foot = moved, 40 + moved
        return any(
            b[0] < left + 60 + GAP and b[2] > left - GAP and b[1] < foot + GAP and b[3] > top - GAP
            for b in BOXES
        )

    assert not near(by + 0.01)
    assert by == 0 or near(by - 1)
