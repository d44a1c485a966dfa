"""An ``open-strings`` block: in which keys the open strings serve."""

from __future__ import annotations

import re

from lickwright.model.blocks import OpenStringsBlock
from lickwright.reading import values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Table, read_fields
from lickwright.reading.lines import Body, Line
from lickwright.text import Span
from lickwright.theory.key import MODES, Key, parse_key, suggest_key

_KEY = re.compile(rf"[^\s,]+(?:\s+(?:{'|'.join(MODES)})(?![^\s,]))?")


def read_keys(line: Line, found: Collector) -> tuple[Key, ...] | None:
    """Read keys; a note alone is the major key on it."""
    keys: list[Key] = []
    for m in _KEY.finditer(line.text):
        text = " ".join(m[0].split())
        key = parse_key(text if " " in text else f"{text} major")
        if key is not None:
            keys.append(key)
            continue
        right = suggest_key(text)
        hint = f"did you mean {right}?" if right else "as in C G D A E, or A minor"
        values.refuse(line.part(m.start(), m.end()), found, f"{quote(text)} is no key", hint)
    return tuple(keys) or None


FIELDS: Table = {"keys": ("keys", read_keys)}


def read_open_strings(body: Body, found: Collector) -> OpenStringsBlock:
    """Read an open-strings block as far as it can be read."""
    read = read_fields(body, FIELDS, "open-strings", found)
    read.require("keys", "open-strings", body.opening, found)
    span = Span(found.source, body.opening.start, body.opening.end)
    return OpenStringsBlock(span=span, places=read.place_tuple(), **read.by_name)
