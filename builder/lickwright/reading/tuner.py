"""A ``tuner`` block: reference tones for the strings of the course tuning."""

from __future__ import annotations

from lickwright.model.blocks import TunerBlock
from lickwright.reading.collector import Collector
from lickwright.reading.fields import read_fields
from lickwright.reading.lines import Body
from lickwright.text import Span


def read_tuner(body: Body, found: Collector) -> TunerBlock:
    """Read a tuner block: it has no fields."""
    read = read_fields(body, {}, "tuner", found)
    span = Span(found.source, body.opening.start, body.opening.end)
    return TunerBlock(span=span, places=read.place_tuple())
