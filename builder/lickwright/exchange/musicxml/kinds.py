"""Chord symbols as MusicXML ``harmony``: a kind for each quality, and the degrees it does not hold.

An added degree counts from the dominant chord of the root, an altered or left-out one from the kind
(MusicXML 4.0, ``degree``). No seventh is added: programs do not agree whether it is the major one.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from lickwright.exchange.element import node
from lickwright.theory.chord import NoChord

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lxml import etree

    from lickwright.theory.chord import ChordSymbol
    from lickwright.theory.pitch import PitchClass

# quality | kind | degrees: + added, = altered, - left out
_TABLE = """
major | major |
m | minor |
dim | diminished |
aug | augmented |
sus4 | suspended-fourth |
sus2 | suspended-second |
5 | power |
add9 | major | +9
add11 | major | +11
madd9 | minor | +9
6 | major-sixth |
6/9 | major-sixth | +9
m6 | minor-sixth |
m6/9 | minor-sixth | +9
7 | dominant |
9 | dominant-ninth |
11 | dominant-11th |
13 | dominant-13th | -11
maj7 | major-seventh |
maj9 | major-ninth |
maj13 | major-13th | -11
m7 | minor-seventh |
m9 | minor-ninth |
m11 | minor-11th |
m13 | minor-13th |
m7add11 | minor-seventh | +11
m(maj7) | major-minor |
m(maj9) | major-minor | +9
m7b5 | half-diminished |
dim7 | diminished-seventh |
7sus4 | dominant | -3 +4
9sus4 | dominant-ninth | -3 +4
13sus4 | dominant-13th | -3 -11 +4
7b9sus4 | dominant | -3 +4 +b9
7b5 | dominant | =b5
7#5 | augmented-seventh |
7b9 | dominant | +b9
7#9 | dominant | +#9
7#11 | dominant | +#11
7b13 | dominant | +b13
7b5b9 | dominant | =b5 +b9
7#5b9 | augmented-seventh | +b9
7b5#9 | dominant | =b5 +#9
7#5#9 | augmented-seventh | +#9
7b9b13 | dominant | +b9 +b13
7alt | dominant | -5 +b9 +#9 +#11 +b13
9b5 | dominant-ninth | =b5
9#5 | dominant-ninth | =#5
9#11 | dominant-ninth | +#11
13b9 | dominant | +b9 +13
13#11 | dominant-13th | =#11
maj7b5 | major-seventh | =b5
maj7#5 | major-seventh | =#5
maj7#11 | major-seventh | +#11
maj9#11 | major-ninth | +#11
"""
_TYPES = {"+": "add", "=": "alter", "-": "subtract"}
_ALTERS = {"": 0, "b": -1, "#": 1}
_DEGREE = re.compile(r"([+=-])([b#]?)(\d+)")

Degree = tuple[int, int, str]


def _read(row: str) -> tuple[str, tuple[str, tuple[Degree, ...]]]:
    name, kind, degrees = (cell.strip() for cell in row.split("|"))
    found = _DEGREE.findall(degrees)
    return name, (kind, tuple((int(value), _ALTERS[alter], _TYPES[sign]) for sign, alter, value in found))


KINDS: Mapping[str, tuple[str, tuple[Degree, ...]]] = MappingProxyType(
    dict(map(_read, _TABLE.strip().splitlines()))
)
"""Of each quality its kind, and degrees as value, alteration in half steps, type."""


def harmony(symbol: ChordSymbol, offset: int) -> etree._Element:
    """Return the element of a chord symbol.

    Args:
        symbol: The chord, or ``N.C.``.
        offset: Divisions from where the element stands.
    """
    moved = node("offset", offset) if offset else None
    if isinstance(symbol, NoChord):
        root = node("root", node("root-step", "C", text=""))
        return node("harmony", root, node("kind", "none", text="N.C."), moved, node("staff", 1))
    kind, degrees = KINDS[symbol.quality.name]
    suffix = symbol.display.removeprefix(symbol.root.display)
    if symbol.bass is not None:
        suffix = suffix.removesuffix(f"/{symbol.bass.display}")
    return node(
        "harmony",
        _named("root", symbol.root),
        node("kind", kind, text=suffix),
        None if symbol.bass is None else _named("bass", symbol.bass),
        *(
            node(
                "degree",
                node("degree-value", value),
                node("degree-alter", alter),
                node("degree-type", type_),
                print_object="no",
            )
            for value, alter, type_ in degrees
        ),
        moved,
        node("staff", 1),
    )


def _named(what: str, name: PitchClass) -> etree._Element:
    alter = node(f"{what}-alter", name.alter) if name.alter else None
    return node(what, node(f"{what}-step", name.letter), alter)
