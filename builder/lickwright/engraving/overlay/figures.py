"""What stands in the place of a digit: its size and width, brackets no higher than the digit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.overlay.ink import width

if TYPE_CHECKING:
    from collections.abc import Iterable

_BRACKETS = "()⟨⟩"
_BRACKET = 0.76
"""Size of brackets against the digit: as high as it is."""
_RAISED = 0.15
"""How much higher such brackets stand, of the digit's size, to be level with it."""


def figure_size(words: etree._Element) -> float:
    """Return the font size of the digit itself."""
    sizes = [float(span.get("font-size", "0px")[:-2]) for span in words.findall("tspan")]
    return max(sizes, default=0.0)


def figure_width(words: etree._Element) -> float:
    """Return the width of all that stands there."""
    return sum(
        width(span.text or "", float(span.get("font-size", "0px")[:-2])) for span in words.findall("tspan")
    )


def set_figure(words: etree._Element, said: str) -> None:
    """Put words in the place of a digit; brackets are set as high as digits, clear of the next string's."""
    figure = words.find("tspan")
    if figure is None:
        return
    size = figure_size(words)
    words.remove(figure)
    lifted = 0.0
    for run, bracket in _runs(said):
        span = etree.SubElement(words, "tspan")
        wanted = -_RAISED * size if bracket else 0.0
        span.set("font-size", f"{size * (_BRACKET if bracket else 1):.0f}px")
        if wanted != lifted:
            span.set("dy", f"{wanted - lifted:.0f}")
        lifted = wanted
        span.text = run


def shrink_figure(words: etree._Element, by: float) -> None:
    """Set all of a figure smaller."""
    for span in words.findall("tspan"):
        span.set("font-size", f"{float(span.get('font-size', '0px')[:-2]) * by:.0f}px")
        if span.get("dy"):
            span.set("dy", f"{float(span.get('dy', '0')) * by:.0f}")


def _runs(said: str) -> Iterable[tuple[str, bool]]:
    run, kind = "", False
    for char in said:
        if (char in _BRACKETS) != kind and run:
            yield run, kind
            run = ""
        kind = char in _BRACKETS
        run += char
    if run:
        yield run, kind
