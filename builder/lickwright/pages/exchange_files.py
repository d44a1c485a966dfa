"""The files of a lick for other programs: what a page orders, and where they stand in the site."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lickwright.model.course import Course
from lickwright.model.music import Piece
from lickwright.model.orders import Credits, Exchanged, ExchangeOrder, Format
from lickwright.model.reduced import for_exchange
from lickwright.model.timeline.tempi import counted
from lickwright.pages.facts import meter_of
from lickwright.pages.page import Made

FOLDER = "music"
FORMATS: Mapping[Format, tuple[str, str]] = {
    "musicxml": ("MusicXML", "musicxml"),
    "midi": ("MIDI", "mid"),
    "mei": ("MEI", "mei"),
}
"""Name and ending of each format, in the order in which they are offered."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A file as a page offers it: the format's name, and where the file stands in the site."""

    name: str
    path: str


def plan_files(piece: Piece, course: Course) -> tuple[ExchangeOrder, ...]:
    """Return what a piece orders for other programs; an excerpt is in its lick's files."""
    if piece.kind == "excerpt":
        return ()
    credits_ = Credits(
        title=piece.title,
        author=course.author,
        rights=course.licence,
        source=piece.source.detail,
        own=piece.source.kind == "own",
    )
    tempo = counted(piece.tempo, meter_of(piece.music))
    return tuple(
        ExchangeOrder(for_exchange(piece.music, format_), format_, tempo, credits_, for_lick=piece.name)
        for format_ in FORMATS
    )


def offer_of(order: ExchangeOrder) -> Offer:
    """Return how a page offers what was ordered."""
    name, ending = FORMATS[order.format]
    return Offer(name, f"{FOLDER}/{order.for_lick}.{ending}")


def files_of(orders: tuple[ExchangeOrder, ...], made: Made) -> dict[str, bytes]:
    """Return the files that were made, by their paths in the site."""
    results = ((order, made(order)) for order in orders)
    return {
        offer_of(order).path: result.content for order, result in results if isinstance(result, Exchanged)
    }
