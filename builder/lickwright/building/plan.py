"""From orders to jobs: what has to be made, each thing once. Pure.

A key is made of the kind of order, the version of its renderer and the canonical bytes of the order, never of
what comes out. Equal orders have one key and are one job, whichever pages they come from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, fields
from hashlib import sha256

from lickwright.model.canonical import canonical, digest
from lickwright.model.music import Music
from lickwright.model.orders import Order, SoundOrder

CHUNK = 12
"""Scores handed to a worker at a time: two licks in all views, some 10 ms each; a sound takes a second."""


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to make.

    Attributes:
        key: Where the result goes in the cache.
    """

    key: str
    order: Order


class Keys:
    """The keys of orders; the digest of a piece of music that several orders share is counted once.

    Args:
        version: The version of the renderer of an order's type.
    """

    def __init__(self, version: Callable[[type[Order]], str]) -> None:
        self._version = version
        self._music: dict[int, tuple[Music, str]] = {}
        self._orders: dict[int, tuple[Order, str]] = {}

    def key(self, order: Order) -> str:
        """Return the key of an order, 64 hexadecimal digits."""
        known = self._orders.get(id(order))
        if known is None:
            # The order is kept beside its key: while it lives, no other value can have its id.
            known = self._orders[id(order)] = (order, self._count(order))
        return known[1]

    def _count(self, order: Order) -> str:
        kind = type(order)
        parts = [kind.__name__, self._version(kind), self._music_digest(order.music)]
        rest = tuple(getattr(order, f.name) for f in fields(order) if f.compare and f.name != "music")
        return sha256(canonical((*parts, rest))).hexdigest()

    def _music_digest(self, music: Music) -> str:
        known = self._music.get(id(music))
        if known is None:
            known = self._music[id(music)] = (music, digest(music))
        return known[1]


def jobs(orders: Iterable[Order], keys: Keys) -> tuple[Job, ...]:
    """Return one job for each value among the orders, in the order in which it first comes."""
    first: dict[str, Job] = {}
    for order in orders:
        key = keys.key(order)
        if key not in first:
            first[key] = Job(key, order)
    return tuple(first.values())


def chunks(wanted: Iterable[Job]) -> Iterator[tuple[Job, ...]]:
    """Part jobs into what a worker takes at a time: sounds one by one, the longest first, then scores.

    The long ones first, so that no worker is left alone with one at the end.
    """
    wanted = tuple(wanted)
    sounds = [job for job in wanted if isinstance(job.order, SoundOrder)]
    yield from ((job,) for job in sorted(sounds, key=seconds, reverse=True))
    scores = [job for job in wanted if not isinstance(job.order, SoundOrder)]
    for start in range(0, len(scores), CHUNK):
        yield tuple(scores[start : start + CHUNK])


def seconds(job: Job) -> float:
    """Return how long a sound is, about; 0 for a score."""
    order = job.order
    if not isinstance(order, SoundOrder):
        return 0.0
    quarters = sum(order.music.bars[index].length for index in order.music.order)
    return float(quarters * 60 / order.bpm)
