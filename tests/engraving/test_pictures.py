"""The page of samples as a picture, against the one that was looked at.

When a sign is drawn otherwise on purpose: run ``python tests/engraving/contact_sheet.py``, look at the
picture, commit it.
"""

from __future__ import annotations

import base64
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from contact_sheet import PICTURE, Sample, photograph, samples, sheet

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from lickwright.model.orders import Engraved

pytestmark = pytest.mark.browser

LARGEST = 16
"""So many points of a square of 24 by 24 may differ: two machines smooth letters a little differently."""
_COMPARE = """async pictures => {
  const [one, other] = await Promise.all(pictures.map(async picture => {
    const image = new Image(); image.src = 'data:image/png;base64,' + picture; await image.decode();
    const pen = new OffscreenCanvas(image.width, image.height).getContext('2d'); pen.drawImage(image, 0, 0);
    return pen.getImageData(0, 0, image.width, image.height);
  }));
  if (one.width !== other.width || one.height !== other.height) return 24 * 24;
  const squares = new Map();
  for (let k = 0; k < one.data.length; k += 4) {
    if (Math.abs(one.data[k] - other.data[k]) <= 96) continue;
    const x = (k / 4) % one.width, y = Math.floor(k / 4 / one.width);
    const square = `${Math.floor(x / 24)} ${Math.floor(y / 24)}`;
    squares.set(square, (squares.get(square) || 0) + 1);
  }
  return Math.max(0, ...squares.values());
}"""


@pytest.fixture(scope="module")
def drawn() -> list[tuple[Sample, Engraved]]:
    return [(sample, sample.engraved()) for sample in samples()]


def differing(browser: Browser, html: str) -> int:
    """In how many points of a square, at most, a page differs from the committed picture."""
    page = browser.new_page()
    try:
        pictures = [
            base64.b64encode(png).decode() for png in (PICTURE.read_bytes(), photograph(browser, html))
        ]
        return float(page.evaluate(_COMPARE, pictures))
    finally:
        page.close()


def test_the_samples_look_as_they_did(chromium: Browser, drawn: list[tuple[Sample, Engraved]]) -> None:
    """No sign has moved, changed or gone."""
    assert differing(chromium, sheet(drawn)) <= LARGEST


@pytest.mark.parametrize(
    "name", ["bend, a whole step", "palm mute", "legato slide", "wide vibrato", "accent"]
)
def test_a_sign_that_goes_is_seen(chromium: Browser, drawn: list[tuple[Sample, Engraved]], name: str) -> None:
    """A planted fault: one sample without what makes it that sample."""
    plain = next(made for sample, made in drawn if sample.name == "tie")
    spoilt = [(sample, plain if sample.name == name else made) for sample, made in drawn]
    assert differing(chromium, sheet(spoilt)) > LARGEST


def test_a_digit_that_slips_is_seen(chromium: Browser, drawn: list[tuple[Sample, Engraved]]) -> None:
    """A planted fault: one digit of one sample by a fret."""
    sample, made = next((s, m) for s, m in drawn if s.name == "tie")
    system = made.systems[0]
    assert ">4</tspan>" in system.svg
    slipped = replace(made, systems=(replace(system, svg=system.svg.replace(">4</tspan>", ">7</tspan>")),))
    spoilt = [(s, slipped if s is sample else m) for s, m in drawn]
    assert differing(chromium, sheet(spoilt)) > 0
