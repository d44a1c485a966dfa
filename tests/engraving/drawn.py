"""An engraved score read back as a picture, by lxml alone."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from lxml import etree

from lickwright.engraving.glyphs import scale_of

if TYPE_CHECKING:
    from lickwright.model.orders import Engraved

SVG = "{http://www.w3.org/2000/svg}"


def parsed(engraved: Engraved) -> list[etree._Element]:
    """The systems as elements; raises when one is not well-formed."""
    return [etree.fromstring(system.svg) for system in engraved.systems]


def ids(engraved: Engraved) -> list[str]:
    """All ids, in order, the glyphs' included."""
    found = re.findall(r'\bid="([^"]+)"', engraved.glyphs)
    return found + [e.get("id") for root in parsed(engraved) for e in root.iter() if e.get("id")]


def kinds(engraved: Engraved) -> Counter[str]:
    """How often each class of group is drawn; what goes on in the next system does not count again."""
    found: Counter[str] = Counter()
    for root in parsed(engraved):
        for group in root.iter(SVG + "g"):
            words = (group.get("class") or "").split()
            if "continued" in words:
                continue
            if words[:1] == ["sign"]:
                assert len(group), f"nothing drawn in {words}"
                found[words[1]] += 1
            elif "slot" in words:
                found[f"slot {words[-1]}"] += bool(len(group))
            elif words:
                found[words[0]] += 1
    return found


def places(engraved: Engraved) -> dict[str, float]:
    """Id of every note to the middle of its head or digit, across."""
    found = {}
    for root in parsed(engraved):
        for group in root.iter(SVG + "g"):
            if (group.get("class") or "").split()[:1] != ["note"] or not group.get("id"):
                continue
            words = group.find(SVG + "text")
            use = group.find(f"{SVG}g/{SVG}use")
            if words is not None:
                found[group.get("id")] = float(words.get("x"))
            elif use is not None:
                scale = scale_of(use.get("href").removeprefix("#"))
                found[group.get("id")] = float(use.get("x")) + 108 * scale / 0.72
    return found
