"""Bar lines as they should be: whole where nothing stands in them, two repeat dots on the tab."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.ink import extent

if TYPE_CHECKING:
    from lxml import etree

    from lickwright.engraving.overlay.canvas import Canvas

_UPRIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")
_DOT = re.compile(r"translate\((-?[\d.]+), -?[\d.]+\) scale\(([\d.]+)")
"""Its place across and its size, which is another on the tab."""


def mend_bar_lines(canvas: Canvas) -> None:
    """Close the gaps that Verovio left for words that are gone, and take away dots between dots."""
    for frame in canvas.frames:
        lines = [g for g in frame.element.iter("g") if g.get("class") == "barLine"]
        boxes: list[tuple[float, float, float, float]] | None = None
        for line in lines:
            _two_dots(line)
            if len(line.findall("path")) > 1:
                if boxes is None:
                    boxes = [box for words in frame.element.iter("text") if (box := extent(words))]
                _close(line, boxes)


def _close(line: etree._Element, boxes: list[tuple[float, float, float, float]]) -> None:
    """Make one stroke of those of one place that meet, or have only emptiness between them."""
    strokes: dict[tuple[str, str], list[tuple[float, float, etree._Element]]] = {}
    for path in line.findall("path"):
        found = _UPRIGHT.match(path.get("d", ""))
        if found and found[1] == found[3] and set(path.attrib) <= {"d", "stroke-width"}:
            top, foot = sorted((float(found[2]), float(found[4])))
            strokes.setdefault((found[1], path.get("stroke-width", "")), []).append((top, foot, path))
    for (x, _), drawn in strokes.items():
        drawn.sort(key=lambda stroke: stroke[:2])
        top, foot, kept = drawn[0]
        for start, end, path in drawn[1:]:
            if start <= foot or not _filled(boxes, float(x), foot, start):
                foot = max(foot, end)
                line.remove(path)
                kept.set("d", f"M{x} {top:g} L{x} {foot:g}")
            else:
                top, foot, kept = start, end, path


def _filled(boxes: list[tuple[float, float, float, float]], x: float, top: float, foot: float) -> bool:
    return any(left - 40 < x < right + 40 and high < foot and low > top for left, right, high, low in boxes)


def _two_dots(line: etree._Element) -> None:
    columns: dict[tuple[str, str], list[etree._Element]] = {}
    for dot in line.findall("use"):
        found = _DOT.match(dot.get("transform", ""))
        if found:
            columns.setdefault((found[1], found[2]), []).append(dot)
    for dots in columns.values():
        for dot in dots[1:-1] if len(dots) > 2 else ():
            line.remove(dot)
