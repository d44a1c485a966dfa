"""Progress counts licks."""

from building_orders import score

from lickwright.building.plan import Job
from lickwright.building.progress import Step, Tally


def test_a_lick_is_done_with_its_last_job() -> None:
    """Of two licks with two jobs and one, the count goes 0, 0, 1, 2, and names the lick each time."""
    jobs = [Job(str(n), score(f"s{n}", lick=lick)) for n, lick in enumerate(("a", "b", "a"))]
    told: list[Step] = []
    tally = Tally(jobs, told.append)
    for job in (jobs[0], jobs[2], jobs[1]):
        tally.count(job)
    assert [(step.done, step.total, step.name) for step in told] == [
        (0, 2, ""),
        (0, 2, "a"),
        (1, 2, "a"),
        (2, 2, "b"),
    ]


def test_nothing_to_do_is_not_told() -> None:
    """When everything is in the cache, no work is announced."""
    told: list[Step] = []
    Tally([], told.append)
    assert told == []
