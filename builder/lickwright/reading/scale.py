"""A ``scale`` block: a scale whose fingering the builder computes."""

from __future__ import annotations

import re
from typing import Any

from lickwright.model.blocks import ScaleBlock
from lickwright.reading import sayings, values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Table, read_fields
from lickwright.reading.lines import Body, Line
from lickwright.reading.nearest import find_nearest
from lickwright.text import Span
from lickwright.theory.key import parse_key, suggest_key
from lickwright.theory.scale import parse_scale

KINDS = ("major pentatonic", "minor pentatonic", "blues", "major blues")
"""What a scale may be besides a key or mode."""
_FROM = re.compile(r"([0-9]{1,2}):([0-9]{1,2})\s+to\s+([0-9]{1,2}):([0-9]{1,2})")
_OPEN = "wherever diatonic"
_HIGHEST_POSITION = 24
_MOST_A_STRING = 6


def read_scale_name(line: Line, found: Collector) -> str | None:
    """Read a key, a mode, a pentatonic or a blues scale, to its name in ASCII."""
    text = " ".join(line.text.split())
    key = parse_key(text)
    if key is not None:
        return key.name
    scale = parse_scale(text)
    if scale is not None and scale.kind in KINDS:
        return scale.name
    tonic, _, kind = text.partition(" ")
    near = find_nearest(kind, KINDS)
    folded = kind.casefold()
    right = suggest_key(text) if "pent" not in folded and "blues" not in folded else None
    if right is None and near and parse_scale(f"{tonic} {near}"):
        right = f"{tonic} {near}"
    hint = (
        f"did you mean {right}?"
        if right
        else "a key or mode, G major pentatonic, G minor pentatonic, G blues, G major blues"
    )
    values.refuse(line, found, f"{quote(text)} is no scale", hint, right)
    return None


def read_from(line: Line, found: Collector) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """Read ``6:3 to 1:3``."""
    m = _FROM.fullmatch(line.text)
    if m is None:
        values.refuse(line, found, f"{quote(line.text)} is no path", "as in 6:3 to 1:3, string and fret")
        return None
    return (int(m[1]), int(m[2])), (int(m[3]), int(m[4]))


def read_position(line: Line, found: Collector) -> int | None:
    """Read one position."""
    if line.text == "open":
        return 0
    return values.read_number(line, found, 0, _HIGHEST_POSITION, "position")


def read_notes_a_string(line: Line, found: Collector) -> int | None:
    """Read how many notes lie on each string."""
    return values.read_number(line, found, 1, _MOST_A_STRING, "number of notes a string")


def read_open_strings(line: Line, found: Collector) -> bool | None:
    """Read whether open strings are looked for."""
    return True if values.choose(line, found, (_OPEN,), "use of open strings") else None


FIELDS: Table = {
    "title": ("title", values.read_text),
    "scale": ("scale", read_scale_name),
    "from": ("path", read_from),
    "position": ("position", read_position),
    "notes a string": ("notes_a_string", read_notes_a_string),
    "open strings": ("open_strings", read_open_strings),
    "tempo": ("tempo", values.read_tempo),
    "stet": ("stets", sayings.read_stet),
}


def read_scale(body: Body, found: Collector) -> ScaleBlock:
    """Read a scale block as far as it can be read."""
    read = read_fields(body, FIELDS, "scale", found)
    read.require("scale", "scale", body.opening, found)
    known: dict[str, Any] = read.by_name
    strings = body.strings
    path = known.pop("path", None)
    if path is not None:
        for string, fret in path:
            if fret > body.frets:
                message = f"fret {fret} lies beyond the neck, which has {body.frets}"
                found.add("syntax/field-value", message, dict(read.places)["from"])
                path = None
                break
            if not 1 <= string <= strings:
                message = f"string {string} does not exist: strings run from 1 to {strings}"
                found.add("syntax/string", message, dict(read.places)["from"])
                path = None
                break
    start, stop = path or (None, None)
    span = Span(found.source, body.opening.start, body.opening.end)
    return ScaleBlock(found.block, start=start, stop=stop, span=span, places=read.place_tuple(), **known)
