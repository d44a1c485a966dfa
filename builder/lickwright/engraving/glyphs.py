"""Music glyphs as shared definitions: put once a page, used by every system.

A definition holds a glyph at one size, so that a use says only where it stands. Its id names the
SMuFL code point (``g-E0A4``, at the size of the staff) and any other size in thousandths
(``g-E0A4-540``); its content depends on the music font alone, so equal ids mean equal content,
whatever score they come from.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_GLYPH = re.compile(r'<g id="(g-[0-9A-F]{4,5}(?:-\d+)?)".*?</g>', re.DOTALL)
_DEFINED = re.compile(r'<g id="([0-9A-F]{4,5})-[^"]*">(.*?)</g>', re.DOTALL)
_USED = re.compile(r'href="#g-([0-9A-F]{4,5})(?:-(\d+))?"')
STAFF_SIZE = 720
"""Thousandths of the font's own units that a glyph has on the staff."""


def hoist(svg: str) -> dict[str, str]:
    """Return the outlines of Verovio's SVG, in the font's own size, by code point."""
    start, end = svg.find("<defs>"), svg.find("</defs>")
    return dict(_DEFINED.findall(svg[start:end])) if 0 <= start < end else {}


def glyph_id(code: str, scale: float) -> str:
    """Return the id of a glyph at a size: ``g-E0A4``, ``g-E0A4-540``."""
    size = round(1000 * scale)
    return f"g-{code}" if size == STAFF_SIZE else f"g-{code}-{size}"


def scale_of(name: str) -> float:
    """Return the size of which an id speaks."""
    size = name.removeprefix("g-").partition("-")[2]
    return int(size or STAFF_SIZE) / 1000


def define_glyphs(outlines: Mapping[str, str], systems: Iterable[str]) -> str:
    """Return the definitions that some systems use, in the order of their ids.

    Args:
        outlines: By code point, as ``hoist`` gives them.
        systems: Their SVG.
    """
    found: dict[str, str] = {}
    for code, size in sorted({use for svg in systems for use in _USED.findall(svg)}):
        scale = int(size or STAFF_SIZE) / 1000
        name = glyph_id(code, scale)
        found[name] = f'<g id="{name}" transform="scale({scale:g})">{outlines[code]}</g>'
    return "".join(found[name] for name in sorted(found))


def merge_glyphs(fragments: Iterable[str]) -> str:
    """Return the definitions of several scores together, each once, in the order of their ids."""
    found: dict[str, str] = {}
    for fragment in fragments:
        for match in _GLYPH.finditer(fragment):
            found.setdefault(match[1], match[0])
    return "".join(found[name] for name in sorted(found))
