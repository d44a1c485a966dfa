"""Systems made small: the same ink, said in fewer elements."""

from __future__ import annotations

import re
from base64 import b64encode
from collections import Counter

import pytest
from engraved_licks import PORCH, TORTURE, read
from lxml import etree

from lickwright.engraving.compact import compact
from lickwright.engraving.engrave import engrave
from lickwright.model.orders import ScoreOrder

SVG = "{http://www.w3.org/2000/svg}"
GLYPH = 'x="2377" y="925"'
SYSTEM = f"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g class="system">
<g id="w-x-b1" class="measure"><g class="staff"><path d="M0 846 L5692 846" stroke-width="13"/><path d="M0 1026 L2000 1026" stroke-width="13"/><path d="M2300 1026 L5692 1026" stroke-width="13"/>
<g class="layer"><g class="beam"><polygon points="1,2 3,4 5,6"/><polygon points="7,8 9,9 8,7"/>
<g id="w-x-s1-1u1" class="note" font-weight="bold"><g class="accid"><use href="#g-E262" {GLYPH}/></g><g class="notehead"><use href="#g-E0A4" {GLYPH}/></g><g class="stem"><path d="M9 1 L9 5" stroke-width="18"/></g></g></g></g></g>
<g class="staff"><g class="layer"><g class="tabGrp"><g id="w-x-t1-1u1" class="note" font-weight="bold"><text x="3" y="4" text-anchor="middle"><tspan font-size="345px">2</tspan></text></g></g></g></g>
<g class="dir slot finger" font-style="italic"><text x="5" y="6" text-anchor="middle"><tspan font-style="normal"><tspan><tspan font-size="272px">1</tspan></tspan><tspan/><tspan x="5" y="7"><tspan font-size="272px">3</tspan></tspan></tspan></text></g>
<g class="harm" font-weight="bold"><text x="1" y="2"><tspan>A7</tspan></text></g>
<g class="sign slide"><path d="M1 1 L2 2" stroke-width="18"/></g></g></g></svg>"""  # noqa: E501

DIFFERENCE = """async pictures => {
  const [one, other] = await Promise.all(pictures.map(async picture => {
    const image = new Image(); image.src = 'data:image/png;base64,' + picture; await image.decode();
    const pen = new OffscreenCanvas(image.width, image.height).getContext('2d'); pen.drawImage(image, 0, 0);
    return pen.getImageData(0, 0, image.width, image.height).data;
  }));
  return one.length === other.length
    ? one.reduce((most, value, k) => Math.max(most, Math.abs(value - other[k])), 0) : 255;
}"""


@pytest.fixture(scope="module")
def small() -> etree._Element:
    return etree.fromstring(compact(SYSTEM))


def by_id(root: etree._Element, name: str) -> etree._Element:
    """The element of an id."""
    return root.xpath(f"//*[@id='{name}']")[0]


def test_a_note_is_its_glyph_or_figure(small):
    """The head and the figure carry id and class themselves; the accidental stands beside the head."""
    head, figure = by_id(small, "w-x-s1-1u1"), by_id(small, "w-x-t1-1u1")
    assert (head.tag, head.get("class"), head.get("href")) == (SVG + "use", "note", "#g-E0A4")
    assert (head.get("x"), head.get("y")) == ("2377", "925")
    assert (figure.tag, figure.get("class"), figure.text) == (SVG + "text", "note", "2")
    assert (small.get("font-size"), figure.get("font-size")) == ("345px", None)  # the commonest
    assert [use.get("href") for use in small.iter(SVG + "use")] == ["#g-E262", "#g-E0A4"]


def test_straight_strokes_become_one_path(small):
    """The lines of a staff are one path of their own class, stems one of the bar, beams one; a sign stays."""
    paths = {path.get("d"): path for path in small.iter(SVG + "path")}
    assert set(paths) == {
        "M0 846H5692m0 180H2300m-300 0H0",
        "M9 1V5",
        "M1 2L3 4L5 6zM7 8L9 9L8 7z",
        "M1 1 L2 2",
    }
    assert paths["M0 846H5692m0 180H2300m-300 0H0"].get("class") == "lines"
    assert paths["M9 1V5"].get("stroke-width") == "18"
    assert paths["M1 1 L2 2"].getparent().get("class") == "sign slide"


def test_words_keep_their_face_and_place(small):
    """Nested runs are one, letters of a kind one text; the anchor stands on the root or where it differs."""
    words = ["".join(text.itertext()).strip() for text in small.iter(SVG + "text")]
    assert words == ["2", "13", "A7"]
    finger, chord = list(small.iter(SVG + "text"))[1:]
    assert finger.get("font-style") is None
    assert (finger.get("x"), finger.get("y"), len(finger)) == ("5 5", "6 7", 0)
    assert (chord.get("font-weight"), chord.get("text-anchor")) == ("bold", "start")
    assert small.get("text-anchor") == "middle"


def test_ids_and_bars_stay(small):
    """No id is lost or doubled, and a bar is still a group."""
    before = Counter(re.findall(r'id="([^"]+)"', SYSTEM))
    assert Counter(e.get("id") for e in small.iter() if e.get("id")) == before
    assert by_id(small, "w-x-b1").get("class") == "measure"


def test_far_fewer_elements(small):
    """The same drawing in under half of the elements, and again the same when done twice."""
    assert len(list(small.iter())) < len(list(etree.fromstring(SYSTEM).iter())) * 0.5
    assert compact(SYSTEM) == compact(SYSTEM)


@pytest.mark.browser
@pytest.mark.parametrize("lick", [PORCH, TORTURE], ids=["porch step", "every sign"])
def test_the_ink_is_the_same(chromium, lick):
    """Chromium paints both forms alike but for the softening of edges; a path left out is caught."""
    engraved = engrave(ScoreOrder(read(lick), prefix="x"))
    whole = [system.svg for system in engraved.systems]
    small = [compact(svg) for svg in whole]
    lacking = [re.sub(r"<path [^>]*/>", "", svg, count=1) for svg in small]
    page = chromium.new_page(viewport={"width": 1000, "height": 800})

    def paint(systems: list[str]) -> str:
        body = "".join(f"<p>{svg}</p>" for svg in systems)
        style = "<style>.note{font-weight:bold}</style>"
        page.set_content(f"{style}<svg width=0 height=0><defs>{engraved.glyphs}</defs></svg>{body}")
        return b64encode(page.screenshot(full_page=True)).decode()

    pictures = [paint(whole), paint(small), paint(lacking)]
    assert page.evaluate(DIFFERENCE, pictures[:2]) < 64
    assert page.evaluate(DIFFERENCE, pictures[::2]) > 96
    page.close()
