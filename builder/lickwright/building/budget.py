"""What a lesson page may weigh, so that it opens at once from disk and on a phone."""

from __future__ import annotations

import re
import zlib
from dataclasses import dataclass, replace

RAW, PACKED, ELEMENTS = 700_000, 120_000, 12_000
"""Bytes as they stand, bytes packed by deflate, elements."""
_ELEMENT = re.compile(rb"<[a-z]")
_PIECE = re.compile(rb'<section class="practice" id="(?:lick-)?([^"]*)".*?</section>', re.DOTALL)
_TOLD = 3
"""Pieces of music named of a heavy page."""


@dataclass(frozen=True, slots=True)
class Weight:
    """What a page weighs: bytes, packed bytes, elements.

    Attributes:
        path: Of the page in the site.
        largest: Of a page over its budget, the heaviest pieces of music: name and bytes.
    """

    path: str
    raw: int
    packed: int
    elements: int
    largest: tuple[tuple[str, int], ...] = ()

    @property
    def over(self) -> bool:
        """Whether it is more than the budget."""
        return self.raw > RAW or self.packed > PACKED or self.elements > ELEMENTS

    def __str__(self) -> str:
        return f"{self.raw / 1000:.0f} kB, {self.packed / 1000:.0f} kB packed, {self.elements} elements"


def weigh(path: str, body: bytes) -> Weight:
    """Weigh a page; one whose bytes fit the packed budget as they stand is not packed for it."""
    packed = len(body) if len(body) <= PACKED else len(zlib.compress(body, 9))
    weight = Weight(path, len(body), packed, len(_ELEMENT.findall(body)))
    if not weight.over:
        return weight
    pieces = sorted((-len(piece[0]), piece[1].decode()) for piece in _PIECE.finditer(body))
    return replace(weight, largest=tuple((name, -size) for size, name in pieces[:_TOLD]))
