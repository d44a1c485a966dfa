"""The plan: each value once, by a key of inputs and versions."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from building_orders import HERE, score, sound

from lickwright.building.plan import CHUNK, Job, Keys, chunks, jobs
from lickwright.model.orders import Order
from lickwright.text import Source, Span


def version(kind: type[Order]) -> str:
    return f"{kind.__name__} 1"


def test_equal_orders_are_one_job() -> None:
    """Equal orders from several pages, at other places and for other licks, share a key and a job."""
    elsewhere = Span(Source("lessons/b.md", "\n\nsome text"), 2, 6)
    one, other, far = score("a"), score("b"), score("a", span=elsewhere, lick="another")
    keys = Keys(version)
    made = jobs([one, other, one, far], keys)
    assert [job.order for job in made] == [one, other]
    assert keys.key(far) == keys.key(one) == made[0].key
    assert len(made[0].key) == 64


def test_whatever_matters_changes_the_key() -> None:
    """Every compared field of an order and the version of its renderer are in the key."""
    order = score("a")
    changed = [
        replace(order, prefix="b"),
        replace(order, width="narrow"),
        replace(order, view="tab"),
        replace(order, music=replace(order.music, swung=True)),
        sound(100),
        sound(101),
    ]
    keys = Keys(version)
    assert len({keys.key(each) for each in (order, *changed)}) == len(changed) + 1
    assert Keys(lambda _: "2").key(order) != keys.key(order)
    assert keys.key(replace(order, for_lick="other")) == keys.key(order)


def test_keys_are_the_same_in_every_process() -> None:
    """A key depends on nothing but its inputs: not on the seed of hashes, nor on where things lie."""
    code = (
        "import sys; sys.path[:0] = sys.argv[1:]\n"
        "from building_orders import score\n"
        "from lickwright.building.plan import Keys\n"
        "print(Keys(lambda kind: f'{kind.__name__} 1').key(score('a')))"
    )
    folders = [str(Path(__file__).parent), str(Path(__file__).parents[2] / "builder")]
    counted = {
        subprocess.run(
            [sys.executable, "-c", code, *folders],
            check=True,
            capture_output=True,
            text=True,
            env={"PYTHONHASHSEED": seed},
        ).stdout.strip()
        for seed in ("1", "2")
    }
    assert counted == {Keys(version).key(score("a"))}


def test_long_sounds_go_first_and_scores_in_chunks() -> None:
    """Sounds go one by one from the longest, then scores by the handful; nothing is lost or doubled."""
    orders = [score(f"s{n}", span=HERE) for n in range(CHUNK + 1)]
    short, long, slow = sound(100), sound(100, bars=8), sound(50, bars=6)
    wanted = jobs([*orders, short, long, slow], Keys(version))
    parts = list(chunks(wanted))
    assert [part[0].order for part in parts[:3]] == [slow, long, short]
    assert [len(part) for part in parts] == [1, 1, 1, CHUNK, 1]

    def by_key(job: Job) -> str:
        return job.key

    assert sorted((job for part in parts for job in part), key=by_key) == sorted(wanted, key=by_key)
