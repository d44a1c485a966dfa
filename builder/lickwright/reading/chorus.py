"""A ``chorus`` block: licks played end to end over one progression."""

from __future__ import annotations

import re

from lickwright.model.blocks import Chorus, ChorusPart
from lickwright.reading import sayings, values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Table, read_fields
from lickwright.reading.lines import Body, Line
from lickwright.text import Span

_PART = re.compile(
    r"(?P<rest>rest)(?:\s+(?P<bars>[0-9]+))?(?!\S)|(?P<name>\S+)(?:\s+[x×]\s*(?P<times>[0-9]+)(?!\S))?"
)
_MOST_TIMES = 64


def read_parts(line: Line, found: Collector) -> tuple[ChorusPart, ...] | None:
    """Read ``porch-step gate-swing x2 rest 2``."""
    parts: list[ChorusPart] = []
    text = line.text.replace(",", " ")
    listed = text != line.text
    if listed:
        mended = " ".join(values.to_name(word) or word for word in text.split())
        values.refuse(line, found, "the licks stand one after the other, without commas", fix=mended)
    for m in _PART.finditer(text):
        span = Span(found.source, line.start + m.start(), line.start + m.end())
        count = m["bars"] or m["times"] or "1"
        if len(count) > 3 or not 1 <= int(count) <= _MOST_TIMES:
            values.refuse(line.part(m.start(), m.end()), found, f"1 to {_MOST_TIMES} times was expected")
        elif m["rest"]:
            parts.append(ChorusPart("", int(count), span))
        elif values.NAME.fullmatch(m["name"]):
            parts.append(ChorusPart(m["name"], int(count), span))
        else:
            name = line.part(m.start("name"), m.end("name"))
            right = values.to_name(m["name"]) or None
            if listed and right:  # the fix of the whole has it
                parts.append(ChorusPart(right, int(count), span))
                continue
            values.refuse(
                name, found, f"{quote(m['name'])} is no name of a lick", "as in porch-step x2 rest 2", right
            )
            if len(found.findings) > 200:
                break
    return tuple(parts) or None


FIELDS: Table = {
    "title": ("title", values.read_text),
    "over": ("over", sayings.read_progression_name),
    "licks": ("parts", read_parts),
    "slow": ("slow", values.read_tempo),
    "stet": ("stets", sayings.read_stet),
}


def read_chorus(body: Body, found: Collector) -> Chorus:
    """Read a chorus block as far as it can be read."""
    read = read_fields(body, FIELDS, "chorus", found)
    for name in ("over", "licks"):
        read.require(name, "chorus", body.opening, found)
    span = Span(found.source, body.opening.start, body.opening.end)
    return Chorus(found.block, span=span, places=read.place_tuple(), **read.by_name)
