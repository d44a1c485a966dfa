"""Music glyphs as shared definitions: put once a page, used by every system.

The id of a glyph names its SMuFL code point (``g-E0A4``); its content depends on the music font
alone, so equal ids mean equal content, whatever score they come from.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

_GLYPH = re.compile(r'<g id="(g-[0-9A-F]{4,5})">.*?</g>', re.DOTALL)
_DEFINED = re.compile(r'<g id="([0-9A-F]{4,5})-[^"]*">(.*?)</g>', re.DOTALL)


def hoist(svg: str) -> dict[str, str]:
    """Return the definitions of Verovio's SVG, by our id."""
    start, end = svg.find("<defs>"), svg.find("</defs>")
    if start < 0 or end < 0:
        return {}
    return {
        f"g-{code}": f'<g id="g-{code}">{content}</g>' for code, content in _DEFINED.findall(svg[start:end])
    }


def merge_glyphs(fragments: Iterable[str]) -> str:
    """Return the definitions of several scores together, each once, in the order of their ids."""
    found: dict[str, str] = {}
    for fragment in fragments:
        for match in _GLYPH.finditer(fragment):
            found.setdefault(match[1], match[0])
    return "".join(found[name] for name in sorted(found))
