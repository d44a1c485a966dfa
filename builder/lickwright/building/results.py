"""Orders fulfilled: from the cache where it can be, by workers where it must be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from lickwright.building.cache import Cache
from lickwright.building.plan import Job, Keys, chunks, jobs
from lickwright.building.progress import Tally, Watch, unwatched
from lickwright.building.renderers import RENDERERS, renderer_of, version_of
from lickwright.building.workers import Failure, run
from lickwright.model.orders import Engraved, Order, Result


class Results(Mapping[Order, Result]):
    """The results of orders, read from the cache when they are looked at, so that memory holds one at a time.

    Args:
        wanted: One job for each value among the orders.

    Looking up what was not ordered raises KeyError; OSError says that the cache has lost what it held.

    Attributes:
        warnings: Lick and sentence: what the engraver said over the scores that have been looked at.
    """

    def __init__(self, wanted: Iterable[Job], keys: Keys, cache: Cache) -> None:
        self._jobs = {job.key: job for job in wanted}
        self._keys = keys
        self._cache = cache
        self.warnings: dict[tuple[str, str], None] = {}

    def __getitem__(self, order: Order) -> Result:
        key = self._keys.key(order)
        if key not in self._jobs:
            raise KeyError(order)
        body = self._cache.get(key)
        if body is None:
            raise OSError(f"the cache has lost an entry while it was in use: {self._cache.folder}")
        result = renderer_of(order).unpack(body)
        if isinstance(result, Engraved):
            self.warnings |= {(order.for_lick, " ".join(said.split())): None for said in result.warnings}
        return result

    def without(self, failed: Iterable[Job]) -> Results:
        """Return the results but for jobs that came to nothing: looking those up raises KeyError."""
        lost = {job.key for job in failed}
        return Results((job for job in self._jobs.values() if job.key not in lost), self._keys, self._cache)

    def __iter__(self) -> Iterator[Order]:
        return (job.order for job in self._jobs.values())

    def __len__(self) -> int:
        return len(self._jobs)


@dataclass(frozen=True, slots=True)
class Fulfilment:
    """What it took to fulfil orders.

    Attributes:
        results: What was ordered, made or found.
        made: How many results were made now.
        kept: How many were in the cache.
        failures: What could not be made.
    """

    results: Results
    made: int
    kept: int
    failures: tuple[Failure, ...]


def fulfil(orders: Iterable[Order], cache: Cache, watch: Watch = unwatched) -> Fulfilment:
    """Make what is missing.

    Raises:
        WorkersError: No worker can be started, or the cache cannot be written.
    """
    keys = Keys(lambda kind: version_of(RENDERERS[kind]))
    wanted = jobs(orders, keys)
    missing = tuple(job for job in wanted if not cache.holds(job.key))
    failures = run(chunks(missing), cache.folder, done=Tally(missing, watch).count)
    return Fulfilment(
        Results(wanted, keys, cache), len(missing) - len(failures), len(wanted) - len(missing), failures
    )
