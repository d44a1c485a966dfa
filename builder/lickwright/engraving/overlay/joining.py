"""Two staves brought together: as near as the ink between them lets them, and no nearer than looks well."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.engraving.overlay.ink import GAP

if TYPE_CHECKING:
    from collections.abc import Callable

    from lxml import etree

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.overlay.ink import Ink

_NEAREST = 620.0
"""Between the lowest line of the staff and the highest of the tab (own threshold: under four spaces)."""
_COLUMN = 120.0
_BRACKET = 190.0
"""How far the bracket of the staves reaches beyond them."""
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_STEP = re.compile(r"([MLCV])([^a-zA-Z]*)")
_PLACE = re.compile(r"translate\((-?[\d.]+), (-?[\d.]+)\)")


def join_staves(canvas: Canvas) -> None:
    """Move the tab of every system, with all its signs, to its place under the staff."""
    for number, frame in enumerate(canvas.frames):
        inks = [canvas.inks[number][name] for name in canvas.names]
        down = _distance(*inks) if len(inks) > 1 else 0.0
        upper, lower = inks[0], inks[-1]
        frame.top = min(upper.top - _BRACKET, *(box[1] for ink in inks for box in ink.boxes))
        frame.foot = down + max(lower.foot + _BRACKET, *(box[3] for box in lower.boxes))
        if not down:
            continue
        middle = (upper.foot + lower.top) / 2
        for part in frame.element:
            kind = part.get("class", "")
            if kind == "measure":
                staves = part.findall("g[@class='staff']")
                _move(staves[1], down)
                for line in part.findall("g[@class='barLine']"):
                    _move(line, down, below=middle)
            elif kind == "grpSym" or part.tag == "path":
                _move(part, down, below=middle)
        for group in canvas.drawn.get((number, canvas.names[1]), ()):
            _move(group, down)


def _distance(upper: Ink, lower: Ink) -> float:
    """How far the lower staff moves down; below 0 = up."""
    feet: dict[int, float] = {}
    for left, _, right, foot in upper.boxes:
        for column in range(int(left / _COLUMN), int(right / _COLUMN) + 1):
            feet[column] = max(foot, feet.get(column, upper.foot))
    down = upper.foot + _NEAREST - lower.top
    for left, top, right, _ in lower.boxes:
        for column in range(int((left - GAP) / _COLUMN), int((right + GAP) / _COLUMN) + 1):
            down = max(down, feet.get(column, upper.foot) + 1.5 * GAP - top)
    return round(down)


def _move(group: etree._Element, down: float, below: float = float("-inf")) -> None:
    """Move all of a group that lies below a height."""

    def moved(height: str) -> str:
        number = float(height)
        return f"{number + down:.10g}" if number > below else height

    for part in group.iter("path", "use", "text", "tspan", "polygon", "rect", "ellipse"):
        if part.tag == "path":
            part.set(
                "d", _STEP.sub(lambda step: step[1] + _shifted(step[1], step[2], moved), part.get("d", ""))
            )
        elif part.tag == "use":
            place = part.get("transform", "")
            part.set("transform", _PLACE.sub(lambda at: f"translate({at[1]}, {moved(at[2])})", place))
        elif part.tag == "polygon":
            part.set("points", _shifted("L", part.get("points", ""), moved))
        elif part.tag == "rect":
            top, foot = float(part.get("y", "0")), float(part.get("y", "0")) + float(part.get("height", "0"))
            part.set("y", moved(f"{top:g}"))
            part.set("height", f"{float(moved(f'{foot:g}')) - float(part.get('y', '0')):.10g}")
        else:
            for name in ("y", "cy"):
                if part.get(name):
                    part.set(name, moved(part.get(name, "0")))


def _shifted(command: str, numbers: str, moved: Callable[[str], str]) -> str:
    count = iter(range(len(numbers)))

    def one(number: re.Match[str]) -> str:
        return moved(number[0]) if command == "V" or next(count) % 2 else number[0]

    return _NUMBER.sub(one, numbers)
