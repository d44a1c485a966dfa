"""Files for other programs: CPU and size for a lick, over the demo course. Prints; asserts nothing.

Run: ``python tests/bench/bench_exchange.py`` from the root of the project.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import process_time

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "builder"))

from lickwright.exchange import links  # noqa: E402
from lickwright.exchange.exchange import exchange  # noqa: E402
from lickwright.model.timeline import resolve  # noqa: E402
from lickwright.pages.exchange_files import FORMATS, plan_files  # noqa: E402
from lickwright.reading.course import read_course  # noqa: E402


def main(rounds: int = 3) -> None:
    """Measure every lick and chorus of the demo and print a table."""
    course, _ = read_course(ROOT / "content")
    assert course is not None
    book, _ = resolve(course)
    orders = [found for piece in book.pieces if (found := plan_files(piece, course))]
    bars = sum(len(found[0].music.bars) for found in orders)
    cut = 0.0
    taken = dict.fromkeys(FORMATS, 0.0)
    sizes = dict.fromkeys(FORMATS, 0)
    for _ in range(rounds):
        for found in orders:
            links.sheet.cache_clear()
            start = process_time()
            links.sheet(found[0].music)
            cut += process_time() - start
            for order in found:
                start = process_time()
                made = exchange(order)
                taken[order.format] += process_time() - start
                sizes[order.format] += len(made.content)
    count = rounds * len(orders)
    print(f"{len(orders)} pieces of {bars / len(orders):.1f} bars; CPU ms and kB for each, the cut made once")
    print(f"{'cut':10}{1000 * cut / count:8.2f}")
    for format_, seconds in taken.items():
        print(f"{format_:10}{1000 * seconds / count:8.2f}{sizes[format_] / count / 1000:8.1f}")
    whole = 1000 * (cut + sum(taken.values())) / count
    print(f"{'together':10}{whole:8.2f}{sum(sizes.values()) / count / 1000:8.1f}")


if __name__ == "__main__":
    main()
