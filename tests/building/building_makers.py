"""What the workers of the tests do instead of engraving: imported by name in worker processes."""

import ctypes
import os
import threading
import time
from dataclasses import replace

from lickwright.engraving.compact import engrave_compact
from lickwright.exchange.exchange import exchange
from lickwright.model.orders import Engraved, Exchanged, ExchangeOrder, Order, ScoreOrder, System
from lickwright.model.place import NOWHERE


def draw(order: Order) -> Engraved:
    """Draw nothing, or come to the end that the order's prefix names."""
    assert isinstance(order, ScoreOrder)
    match order.prefix:
        case "abort":
            os.abort()
        case "fault":
            ctypes.string_at(0)
        case "exit":
            os._exit(3)
        case "hang":
            time.sleep(600)
        case "raise":
            raise ValueError("no such glyph")
        case "place":
            placed = [bar for bar in order.music.bars if bar.span != NOWHERE]
            assert not placed
    return Engraved((System(f"<svg>{order.prefix}</svg>", (), 1.0, 1.0),))


def draw_by_name(order: Order) -> Engraved | Exchanged:
    """Draw, or come to the end that the lick's name names; files for other programs are made."""
    if isinstance(order, ExchangeOrder):
        return exchange(order)
    return draw(replace(order, prefix=order.for_lick))


def draw_and_warn(order: Order) -> Engraved | Exchanged:
    """Draw as the engraver does, and have something to say."""
    if isinstance(order, ExchangeOrder):
        return exchange(order)
    return replace(engrave_compact(order), warnings=("Could not place\ta slur",))


def draw_and_die(order: Order) -> Engraved:
    """Draw, and end a moment later, when the result has been told."""
    threading.Timer(0.02, os._exit, (3,)).start()
    return draw(order)


def die(*_: object) -> None:
    """End as a worker that finds a library missing would."""
    os._exit(1)
