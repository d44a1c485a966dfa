"""Grace notes on the tab: smaller digits, each under its small notehead, the string cut anew."""

from __future__ import annotations

import re
from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import grace_id
from lickwright.engraving.overlay.figures import figure_size, shrink_figure

if TYPE_CHECKING:
    from lxml import etree

    from lickwright.engraving.overlay.canvas import Anchor, Canvas
    from lickwright.engraving.score import Score

SMALLER = 0.7
"""Size of a grace note's digit against the others (common practice: about two thirds)."""
_BEFORE = 150.0
"""How far Verovio puts such a digit to the right of its notehead."""
_CLEAR = 40.0
"""Room between a digit and its string, on either side."""
_APART = 25.0
"""Room between two digits of a string."""
_LEVEL = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")


def set_graces(canvas: Canvas, score: Score) -> None:
    """Set the digits of all grace notes smaller and apart from the notes they lead to."""
    for entry in score.entries:
        for number, grace in enumerate(entry.sound.grace, 1):
            for k, _ in enumerate(grace.tones, 1):
                local = f"t{grace_id(entry.sound.address, number, k)}"
                before = canvas.anchor(local)
                if before is None:
                    continue
                _shrink(canvas.elements[local][0])
                after = canvas.anchor(local)
                if after is not None:
                    _cut_string(canvas, local, before, after)


def _shrink(note: etree._Element) -> None:
    words = note.find("text")
    size = figure_size(words) if words is not None else 0.0
    if words is None or not size:
        return
    shrink_figure(words, SMALLER)
    words.set("y", f"{float(words.get('y', '0')) - 0.34 * size * (1 - SMALLER):.0f}")
    words.set("x", f"{float(words.get('x', '0')) - _BEFORE:.0f}")


def _cut_string(canvas: Canvas, local: str, before: Anchor, after: Anchor) -> None:
    """Close the gap where Verovio had the digit, but for its neighbours', and cut one where it is now."""
    staff = canvas.elements[local][0].getparent()
    while staff is not None and staff.get("class") != "staff":
        staff = staff.getparent()
    if staff is None:
        return
    lines = [(path, _LEVEL.match(path.get("d", ""))) for path in staff.findall("path")]
    own = [
        (path, float(found[1]), float(found[3]))
        for path, found in lines
        if found and found[2] == found[4] and abs(float(found[2]) - before.y) < 0.3 * before.size
    ]
    if not own:
        return
    height = _height(own[0][0])
    others = [
        at
        for note in staff.iter("g")
        if (name := note.get("id")) and name != local and note.get("class", "").startswith("note")
        and (at := canvas.anchor(name)) is not None and abs(at.y - after.y) < 60
    ]  # fmt: skip
    x = _between(after, others)
    words = canvas.elements[local][0].find("text")
    if words is not None:
        words.set("x", f"{x:.0f}")
    digits = [*others, replace(after, x=x)]
    left, right = min(start for _, start, _ in own), max(end for _, _, end in own)
    gaps = sorted((at.x - at.half - _CLEAR, at.x + at.half + _CLEAR) for at in digits)
    at_staff = staff.index(own[0][0])
    weight = own[0][0].get("stroke-width", "18")
    for path, _, _ in own:
        staff.remove(path)
    for start, end in gaps:
        if start > left:
            staff.insert(at_staff, _string(staff, left, start, height, weight))
        left = max(left, end)
    if right > left:
        staff.insert(at_staff, _string(staff, left, right, height, weight))


def _between(at: Anchor, others: list[Anchor]) -> float:
    """Where a digit stands between the next ones of its string: where it is, if they leave it room."""
    near = at.half + _APART
    low = max((other.x + other.half for other in others if other.x < at.x), default=-inf) + near
    high = min((other.x - other.half for other in others if other.x >= at.x), default=inf) - near
    return min(max(at.x, low), high) if low <= high else (low + high) / 2


def _height(path: etree._Element) -> str:
    found = _LEVEL.match(path.get("d", ""))
    return found[2] if found else "0"


def _string(staff: etree._Element, left: float, right: float, height: str, weight: str) -> etree._Element:
    data = f"M{left:.0f} {height} L{right:.0f} {height}"
    return staff.makeelement("path", {"d": data, "stroke-width": weight})
