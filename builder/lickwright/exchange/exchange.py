"""From an order to a file: what ``building`` calls in a worker process."""

from __future__ import annotations

from lickwright.exchange.mei.document import write_mei
from lickwright.exchange.midi.document import write_midi
from lickwright.exchange.musicxml.document import write_musicxml
from lickwright.model.orders import Exchanged, ExchangeOrder

WRITERS = {"musicxml": write_musicxml, "midi": write_midi, "mei": write_mei}


def exchange(order: ExchangeOrder) -> Exchanged:
    """Write a piece of music in the format of its order; no date in it, so equal orders are equal bytes."""
    return Exchanged(WRITERS[order.format](order))
