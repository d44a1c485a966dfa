"""Workers: everything is made, a death costs one lick, results are the same whoever makes them."""

from importlib import import_module
from pathlib import Path

import pytest
from building_orders import score

from lickwright.building import workers
from lickwright.building.cache import Cache
from lickwright.building.packing import unpack_score
from lickwright.building.plan import Job, Keys, chunks, jobs
from lickwright.building.workers import Maker, WorkersError, run


@pytest.fixture(scope="module")
def draw() -> Maker:
    maker: Maker = import_module("building_makers").draw
    return maker


def wanted(*prefixes: str) -> tuple[Job, ...]:
    return jobs([score(prefix) for prefix in prefixes], Keys(lambda _: "1"))


def test_everything_is_made(tmp_path: Path, draw: Maker) -> None:
    """Twenty jobs end in the cache, each told once when it ended."""
    made = wanted(*(f"lick-{n}" for n in range(20)))
    ended: list[Job] = []
    assert run(chunks(made), tmp_path, done=ended.append, most=2, maker=draw) == ()
    assert sorted(job.key for job in ended) == sorted(job.key for job in made)
    for job in made:
        body = Cache(tmp_path).get(job.key)
        assert body is not None
        assert unpack_score(body) == draw(job.order)


def test_renderers_see_no_places(tmp_path: Path, draw: Maker) -> None:
    """What a renderer gets has no places in it; here, beside the author's text, it has."""
    made = wanted("place")
    with pytest.raises(AssertionError):
        draw(made[0].order)
    assert run(chunks(made), tmp_path, maker=draw) == ()


def test_a_death_costs_one_lick(tmp_path: Path, draw: Maker) -> None:
    """A worker that aborts, faults or ends names its lick; an exception too; all others are made."""
    made = wanted("a", "abort", "b", "fault", "c", "exit", "raise", "d", "e", "f")
    ended: list[Job] = []
    failures = run([made], tmp_path, done=ended.append, most=1, maker=draw)
    assert [(failure.job.order.for_lick, failure.died) for failure in failures] == [
        ("abort", True),
        ("fault", True),
        ("exit", True),
        ("raise", False),
    ]
    assert [failure.detail for failure in failures[:3]] == [
        "signal SIGABRT",
        "signal SIGSEGV",
        "exit status 3",
    ]
    assert failures[3].detail.startswith("ValueError: no such glyph (building_makers.py, line ")
    assert ended == list(made)
    failed = {failure.job.key for failure in failures}
    assert [job.key for job in made if not Cache(tmp_path).holds(job.key)] == [
        job.key for job in made if job.key in failed
    ]


def test_a_death_between_two_jobs_costs_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A worker that ends after a job is replaced, whether the parent notices while it gives or later."""
    give, alive = workers._Worker.give, [False, True, False, True]

    def give_late(worker: workers._Worker, chunk: tuple[Job, ...]) -> None:
        if worker.process.is_alive() and not (alive and alive.pop()):
            worker.process.join(0.2)
        give(worker, chunk)

    monkeypatch.setattr(workers._Worker, "give", give_late)
    made = wanted("a", "b", "c", "d")
    ended: list[Job] = []
    maker = import_module("building_makers").draw_and_die
    assert run([(job,) for job in made], tmp_path, done=ended.append, most=1, maker=maker) == ()
    assert ended == list(made)
    assert all(Cache(tmp_path).holds(job.key) for job in made)


def test_a_worker_that_hangs_is_ended(tmp_path: Path, draw: Maker) -> None:
    """A job that never ends costs its lick and no other."""
    made = wanted("a", "hang", "b")
    (failure,) = run([made], tmp_path, most=1, maker=draw, patience=2)
    assert (failure.job, failure.died) == (made[1], True)
    assert failure.detail == "signal SIGKILL after 2 seconds without a result"
    assert Cache(tmp_path).holds(made[2].key)


def test_nothing_to_make_starts_nobody(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without jobs no process is started."""
    monkeypatch.setattr(workers, "get_context", None)
    assert run([], tmp_path) == ()


def test_a_cache_that_refuses_is_said(tmp_path: Path, draw: Maker) -> None:
    """When the results cannot be kept, that is one error, not one a lick."""
    (tmp_path / "file").touch()
    with pytest.raises(WorkersError, match="cache cannot be written"):
        run(chunks(wanted("a", "b")), tmp_path / "file", most=1, maker=draw)


def test_a_worker_that_cannot_begin_is_said(
    tmp_path: Path, draw: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A worker that ends before its first sign of life blames no lick."""
    monkeypatch.setattr(workers, "_serve", import_module("building_makers").die)
    with pytest.raises(WorkersError, match="could not begin: exit status 1"):
        run(chunks(wanted("a")), tmp_path, most=1, maker=draw)
