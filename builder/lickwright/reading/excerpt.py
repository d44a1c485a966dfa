"""An ``excerpt`` block: some bars or sounds of a lick."""

from __future__ import annotations

from lickwright.model.address import AddressRange
from lickwright.model.blocks import Excerpt
from lickwright.reading import sayings, values
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Table, read_fields
from lickwright.reading.lines import Body, Line
from lickwright.text import Span


def read_show(line: Line, found: Collector) -> AddressRange | None:
    """Read ``bars 1-2``, ``bar 3`` or a range of sounds, ``1.3-2.1``."""
    if line.text.startswith("bar"):
        return sayings.read_bars(line, found)
    shown = AddressRange.parse(line.text)
    if shown is None or shown.first.sound is None:
        hint = "bars 1-2, or sounds: 1.3-2.1, low1.2-2.1 for the lower voice"
        right = f"bars {shown}" if shown is not None and not shown.first.lower else None
        values.refuse(line, found, f"{quote(line.text)} names no part of a lick", hint, right)
        return None
    return shown


FIELDS: Table = {"of": ("of", values.read_name), "show": ("show", read_show)}


def read_excerpt(body: Body, found: Collector) -> Excerpt | None:
    """Read an excerpt block; None when it does not say of which lick."""
    read = read_fields(body, FIELDS, "excerpt", found)
    read.require("of", "excerpt", body.opening, found)
    if "of" not in read.by_name:
        return None
    span = Span(found.source, body.opening.start, body.opening.end)
    return Excerpt(span=span, places=read.place_tuple(), **read.by_name)
