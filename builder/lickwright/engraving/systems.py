"""Verovio's page cut into systems: one ``<svg>`` each, clean of its styles and random ids."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.glyphs import hoist
from lickwright.model.orders import BarBox, System

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.engraving.overlay.canvas import Canvas

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_PAGE_MARGIN = 200.0
TOP, BOTTOM = 290.0, 80.0
"""Room over the highest ink (for the bracket of a loop) and under the lowest, in units."""
_FLAT, _SHARP = "\uea64", "\uea66"
_SIGNS = {_FLAT: "♭", _SHARP: "♯", "\uea65": "♮"}
_DROPPED = ("placeholder", "MilestoneEnd", "pageMilestone")
_EMPTY = {"ledgerLines", "space", "mSpace", "meterSig", "accid", "stem", "tabDurSym", "keySig"}
_FACE = "Liberation Serif, Times New Roman, Times, serif"
_STYLED = {
    "dir": {"font-style": "italic"},
    "mNum": {"font-style": "italic"},
    "ending": {"font-weight": "bold"},
    "reh": {"font-weight": "bold"},
    "harm": {"font-weight": "bold"},
    "note": {"font-weight": "bold"},
}
_TALL = {"E4C0": (230.0, 30.0), "E566": (260.0, 20.0), "E050": (900.0, 500.0), "E052": (760.0, 640.0)}
_INK = (130.0, 130.0)
"""How far a glyph reaches over and under its place, by code point; else this."""


@dataclass(frozen=True, slots=True)
class Page:
    """Verovio's page, parsed.

    Attributes:
        systems: The ``g`` of every system.
        width: Of the page, in units.
        glyphs: Definitions by id.
    """

    systems: tuple[etree._Element, ...]
    width: float
    glyphs: dict[str, str]


def read_page(svg: str) -> Page:
    """Parse Verovio's SVG; its style, its description and its milestones fall away."""
    glyphs = hoist(svg)
    start, end = svg.find('<svg class="definition-scale"'), svg.rfind("</svg>")
    root = etree.fromstring(svg[start:end])
    width = float(root.get("viewBox", "0 0 0 0").split()[2])
    margin = root.find("g")
    systems = [] if margin is None else [g for g in margin if g.get("class") == "system"]
    return Page(tuple(systems), width, glyphs)


def replace_digits(canvas: Canvas, texts: Iterable[tuple[str, str]]) -> None:
    """Put texts in the place of placeholder frets."""
    for local, words in texts:
        found = canvas.elements.get(local)
        figure = found[0].find("text/tspan") if found else None
        if figure is not None:
            figure.text = words


def finish(
    element: etree._Element, canvas_right: float, prefix: str, width: float, kept: frozenset[str]
) -> System:
    """Turn a system's ``g`` into an SVG.

    Args:
        element: The system.
        canvas_right: Right edge of its staves.
        prefix: Begins every id that stays.
        width: Of the page, in units.
        kept: Local ids that stay; the others are random.
    """
    top, foot = float("inf"), float("-inf")
    bars: list[BarBox] = []
    for part in list(element.iter()):
        kind = part.get("class", "")
        name = part.tag
        if name == "g":
            if any(word in kind for word in _DROPPED) or (kind in _EMPTY and not len(part)):
                parent = part.getparent()
                if parent is not None:
                    parent.remove(part)
                continue
            if kind == "measure":
                bars.append(_box(part, width, first=not bars))
            for key, value in _STYLED.get(kind.split(" ", 1)[0], {}).items():
                part.set(key, value)
        elif name == "use":
            code = part.get("href", "#").removeprefix("#").partition("-")[0]
            part.set("href", f"#g-{code}")
        elif name == "text":
            _clean(part)
        local = part.get("id")
        if local is not None:
            if local in kept:
                part.set("id", prefix + local)
            else:
                del part.attrib["id"]
        if part.get("visibility") == "hidden":
            continue
        for high, low in _extent(part):
            top, foot = min(top, high), max(foot, low)
    top, foot = top - TOP, foot + BOTTOM
    content = etree.tostring(element, encoding="unicode")
    box = f"{-_PAGE_MARGIN:.0f} {top:.0f} {width:.0f} {foot - top:.0f}"
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" fill="currentColor" stroke="currentColor"'
        f' stroke-width="0" font-family="{_FACE}" aria-hidden="true" focusable="false">{content}</svg>'
    )
    return System(svg, tuple(bars), width, float(round(foot - top)))


def _box(measure: etree._Element, width: float, *, first: bool) -> BarBox:
    left, right = float("inf"), 0.0
    staff = measure.find("g[@class='staff']")
    if staff is not None:
        for path in staff.findall("path"):
            numbers = [float(number) for number in _NUMBER.findall(path.get("d", ""))]
            left, right = min(left, numbers[0]), max(right, numbers[-2])
    if first:
        places = [
            float(_NUMBER.findall(use.get("transform", "0"))[0])
            for kind in ("note", "rest", "mRest", "chord")
            for sounding in measure.iter("g")
            if sounding.get("class") == kind
            for use in sounding.iter("use")
        ]
        digits = [float(words.get("x", "0")) - 90 for words in measure.iterfind(".//g[@class='note']/text")]
        left = min([*places, *digits], default=left + 150) - 150
    number = int((measure.get("id") or "b0").rpartition("b")[2])
    scale = 1 / width
    return BarBox(number, round((left + _PAGE_MARGIN) * scale, 4), round((right + _PAGE_MARGIN) * scale, 4))


def _clean(words: etree._Element) -> None:
    if words.get("font-size") == "0px":
        del words.attrib["font-size"]
    size = ""
    for span in words.iter("tspan"):
        if span.get("font-family"):
            del span.attrib["font-family"]
            span.text = "".join(_SIGNS.get(char, char) for char in span.text or "")
            if size:
                span.set("font-size", size)
        else:
            size = span.get("font-size") or size
        if "class" in span.attrib:
            del span.attrib["class"]


def _extent(part: etree._Element) -> Iterable[tuple[float, float]]:
    name = part.tag
    if name == "path":
        numbers = [float(number) for number in _NUMBER.findall(part.get("d", ""))][1::2]
        if numbers and "class" not in part.attrib and part.get("d", "").isascii():
            if any(letter in part.get("d", "") for letter in "hvlqtacHV"):
                yield numbers[0] - 180, numbers[0]
            else:
                yield min(numbers), max(numbers)
    elif name == "use":
        numbers = [float(number) for number in _NUMBER.findall(part.get("transform", ""))]
        if len(numbers) > 1:
            over, under = _TALL.get(part.get("href", "").removeprefix("#g-"), _INK)
            yield numbers[1] - over, numbers[1] + under
    elif name == "text":
        sizes = [float(s.get("font-size", "0px")[:-2]) for s in part.iter("tspan") if s.get("font-size")]
        places = [float(s.get("y", "0")) for s in part.iter("tspan", "text") if s.get("y")]
        if sizes and places:
            yield min(places) - 0.75 * max(sizes), max(places) + 0.22 * max(sizes)
    elif name in ("polygon", "polyline"):
        numbers = [float(number) for number in _NUMBER.findall(part.get("points", ""))][1::2]
        if numbers:
            yield min(numbers), max(numbers)
