"""Bar lines as they should be: whole, two repeat dots on the tab."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lxml import etree

    from lickwright.engraving.overlay.canvas import Canvas

_UPRIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")
_DOT = re.compile(r"translate\((-?[\d.]+), -?[\d.]+\) scale\(([\d.]+)")
"""Its place across and its size, which is another on the tab."""


def mend_bar_lines(canvas: Canvas) -> None:
    """Draw each bar line as one stroke through both staves, and take away dots between dots."""
    for frame in canvas.frames:
        for line in frame.element.iter("g"):
            if line.get("class") == "barLine":
                _two_dots(line)
                if len(line.findall("path")) > 1:
                    _close(line)


def _close(line: etree._Element) -> None:
    """Make one stroke of those of one place and weight that meet."""
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
            if start <= foot:
                foot = max(foot, end)
                line.remove(path)
                kept.set("d", f"M{x} {top:g} L{x} {foot:g}")
            else:
                top, foot, kept = start, end, path


def _two_dots(line: etree._Element) -> None:
    columns: dict[tuple[str, str], list[etree._Element]] = {}
    for dot in line.findall("use"):
        found = _DOT.match(dot.get("transform", ""))
        if found:
            columns.setdefault((found[1], found[2]), []).append(dot)
    for dots in columns.values():
        for dot in dots[1:-1] if len(dots) > 2 else ():
            line.remove(dot)
