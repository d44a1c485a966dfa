"""Worker processes: each makes jobs one after the other and puts the results into the cache itself.

A process a core, started afresh (``spawn``), so that nothing of the parent's state reaches a result. What a
renderer's library does to its process (an abort, a segmentation fault) ends one job: the parent knows which
one it was, starts another worker and goes on with the rest. A process may also end between two jobs, and the
next one is then not to blame: a job is given up only when a second worker, given it first, has ended over it.
"""

from __future__ import annotations

import os
import pickle
import signal
import time
import traceback
from collections import Counter, deque
from collections.abc import Callable, Iterable
from contextlib import suppress
from copyreg import dispatch_table
from dataclasses import dataclass
from io import BytesIO
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from lickwright.building.cache import Cache
from lickwright.building.packing import pack
from lickwright.building.plan import Job, seconds
from lickwright.building.renderers import make
from lickwright.model.orders import Order, Result
from lickwright.model.place import NOWHERE
from lickwright.text import Span

Maker = Callable[[Order], Result]

PATIENCE = 300.0
"""Seconds that a worker may take to begin, and for a job besides the length of its sound: a thousand times
what a lick takes, so only one that never ends is cut off."""
_TRIES = 2
_FAREWELL = 5.0
"""Seconds that a worker without work may take to end."""


class WorkersError(RuntimeError):
    """No worker process can be started on this machine, or none can write to the cache."""


@dataclass(frozen=True, slots=True)
class Failure:
    """A job that could not be made.

    Attributes:
        died: True when the process ended; False when the renderer raised.
        detail: ``signal SIGABRT``, ``exit status 3``, ``signal SIGKILL after 300 seconds without a result``,
            or the exception and where it was raised.
    """

    job: Job
    died: bool
    detail: str


def cores() -> int:
    """Return how many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def run(
    chunks: Iterable[tuple[Job, ...]],
    cache: Path,
    *,
    done: Callable[[Job], None] = lambda _: None,
    most: int | None = None,
    maker: Maker = make,
    patience: float = PATIENCE,
) -> tuple[Failure, ...]:
    """Make every job and keep the results in the cache.

    Args:
        chunks: What a worker is given at a time.
        cache: The cache's folder.
        done: Called as each job ends, made or not.
        most: Processes at the most; None: one a core.
        maker: What makes an order in the worker; a function of a module.
        patience: Seconds for a job besides the length of its sound; then its worker is ended.

    Returns:
        What could not be made, in the order in which it failed. Empty: everything is in the cache.

    Raises:
        WorkersError: When a worker ends before it has begun, or the cache refuses what it made.
    """
    waiting = deque(chunks)
    staff = [_Worker(cache, maker, patience) for _ in range(min(most or cores(), len(waiting)))]
    failures: list[Failure] = []
    deaths: Counter[str] = Counter()
    try:
        while staff:
            ready = wait([worker.connection for worker in staff], min(worker.left for worker in staff))
            for worker in tuple(staff):
                if worker.connection in ready:
                    ended = worker.listen()
                elif worker.left <= 0:
                    ended = worker.dismiss()
                else:
                    continue
                again: list[tuple[Job, ...]] = []
                if ended is not None:
                    deaths[ended.job.key] += ended.died
                    if ended.died and not ended.late and deaths[ended.job.key] < _TRIES:
                        again.append((ended.job,))
                    else:
                        done(ended.job)
                        if ended.detail:
                            failures.append(Failure(ended.job, ended.died, ended.detail))
                if worker.gone:
                    waiting.extendleft(reversed([*again, *([tuple(worker.jobs)] if worker.jobs else [])]))
                elif not worker.jobs and waiting:
                    worker.give(waiting.popleft())
                if worker.gone or not worker.jobs:
                    staff.remove(worker)
                    worker.stop()
                    if worker.gone and waiting:
                        staff.append(_Worker(cache, maker, patience))
    finally:
        for worker in staff:
            worker.stop(now=True)
    return tuple(failures)


@dataclass(frozen=True, slots=True)
class _Ended:
    job: Job
    died: bool = False
    late: bool = False
    detail: str = ""


class _Worker:
    """One process, seen from the parent."""

    def __init__(self, cache: Path, maker: Maker, patience: float) -> None:
        context = get_context("spawn")
        self.connection, theirs = context.Pipe()
        self.process: BaseProcess = context.Process(target=_serve, args=(theirs, cache, maker), daemon=True)
        self.process.start()
        theirs.close()
        self.jobs: deque[Job] = deque()
        self.begun = False
        self.gone = False
        self._patience = patience
        self._since = time.monotonic()

    @property
    def left(self) -> float:
        """Seconds until it is late with what it has in hand."""
        return max(0.0, self._since + self._allowed - time.monotonic())

    @property
    def _allowed(self) -> float:
        return self._patience + (seconds(self.jobs[0]) if self.jobs else 0.0)

    def give(self, chunk: tuple[Job, ...]) -> None:
        self.jobs.extend(chunk)
        self._since = time.monotonic()
        with suppress(OSError):  # it has ended since its last answer: the next listening meets its end
            self.connection.send_bytes(_placeless(chunk))

    def listen(self) -> _Ended | None:
        """Take one answer: the job that has ended, or None for the worker's first sign of life."""
        try:
            answer: tuple[str, str] | None = self.connection.recv()
        except (EOFError, OSError):
            return self._end()
        self._since = time.monotonic()
        if answer is None:
            self.begun = True
            return None
        what, detail = answer
        if what == "cache":
            raise WorkersError(f"the cache cannot be written: {detail}")
        return _Ended(self.jobs.popleft(), detail=detail)

    def dismiss(self) -> _Ended | None:
        """End a worker that is late."""
        self.process.kill()
        return self._end(f" after {self._allowed:.0f} seconds without a result")

    def _end(self, late: str = "") -> _Ended | None:
        self.gone = True
        self.process.join(_FAREWELL)
        if self.process.is_alive():  # it has closed the pipe and goes on
            self.process.kill()
            self.process.join()
        detail = _ending(self.process.exitcode) + late
        if not self.begun:
            raise WorkersError(f"a worker process could not begin: {detail}") from None
        if not self.jobs:
            return None
        return _Ended(self.jobs.popleft(), died=True, late=bool(late), detail=detail)

    def stop(self, *, now: bool = False) -> None:
        if now:
            self.process.kill()
        self.connection.close()  # the worker reads the end of its work
        self.process.join(_FAREWELL)
        if self.process.is_alive():
            self.process.kill()
            self.process.join()
        self.process.close()


def _nowhere() -> Span:
    return NOWHERE


def _placeless_span(_: Span) -> tuple[Callable[[], Span], tuple[()]]:
    return _nowhere, ()


class _Placeless(pickle.Pickler):
    """Sends values without their places: a renderer cannot depend on what it never sees."""

    def __init__(self, file: BytesIO) -> None:
        super().__init__(file, protocol=5)
        self.dispatch_table = {**dispatch_table, Span: _placeless_span}


def _placeless(value: Any) -> bytes:
    buffer = BytesIO()
    _Placeless(buffer).dump(value)
    return buffer.getvalue()


def _ending(code: int | None) -> str:
    if code is not None and code < 0:
        return f"signal {signal.Signals(-code).name}"
    return f"exit status {code}"


def _serve(connection: Connection, folder: Path, maker: Maker) -> None:
    """Be a worker: the other side of the pipe."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent decides what an interrupt ends
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 1)
    os.dup2(silence, 2)
    cache = Cache(folder)
    connection.send(None)
    while True:
        try:
            chunk: tuple[Job, ...] = pickle.loads(connection.recv_bytes())  # noqa: S301  # from our parent
        except (EOFError, ConnectionError):
            return
        for job in chunk:
            connection.send(_answer(job, cache, maker))


def _answer(job: Job, cache: Cache, maker: Maker) -> tuple[str, str]:
    try:
        body = pack(maker(job.order))
    except Exception as error:  # noqa: BLE001  # a fault of ours must not take the other licks along
        frame = traceback.extract_tb(error.__traceback__)[-1]
        place = f"{Path(frame.filename).name}, line {frame.lineno}"
        return "renderer", f"{type(error).__name__}: {error} ({place})"
    try:
        cache.put(job.key, body)
    except OSError as error:
        return "cache", str(error)
    return "", ""
