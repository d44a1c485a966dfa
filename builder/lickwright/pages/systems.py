"""Engraved systems as a page shows them: small, and level where two stand side by side."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from lickwright.model.orders import System

_BOX = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')
_STAFF = re.compile(r' d="M0 (-?[\d.]+)[Hh][^>]*class="lines"')  # the first line of the staff, of the tab
_SAID = re.compile(
    r' (?:xmlns="http://www\.w3\.org/2000/svg"|(?:fill|stroke)="currentColor"|stroke-width="0"'
    r'|font-family="[^"]*"|focusable="false"|text-anchor="middle")'
)
"""Of a whole drawing; inside a page its sheet says the same of all."""


def page_svg(system: System) -> str:
    """Return the drawing of a system without what the style sheet of a page says of every one."""
    end = system.svg.find(">")
    return _SAID.sub("", system.svg[:end]) + system.svg[end:]


def level(systems: Sequence[System]) -> tuple[System, ...]:
    """Return systems that a sheet sets two and two side by side with their staves on one level.

    The one whose staff stands nearer to its upper edge gets room above.
    """
    levelled: list[System] = []
    for k in range(0, len(systems), 2):
        pair = systems[k : k + 2]
        boxes, staves = [_BOX.search(s.svg) for s in pair], [_STAFF.findall(s.svg) for s in pair]
        depths = [
            min(map(float, staff)) - float(box[2])
            for box, staff in zip(boxes, staves, strict=True)
            if box and staff
        ]
        if len(depths) < len(pair):
            levelled += pair
            continue
        for system, box, depth in zip(pair, boxes, depths, strict=True):
            more = max(depths) - depth
            if box is None or not more:
                levelled.append(system)
                continue
            top, height = float(box[2]) - more, float(box[4]) + more
            view = f'viewBox="{box[1]} {top:g} {box[3]} {height:g}"'
            svg = system.svg[: box.start()] + view + system.svg[box.end() :]
            levelled.append(replace(system, svg=svg, height=height))
    return tuple(levelled)
