"""Engraving: our own work beside Verovio's, per lick and for both widths. Prints; asserts nothing.

Run: ``python tests/bench/bench_engraving.py`` from the root of the project.
"""

from __future__ import annotations

import sys
from pathlib import Path
from statistics import median
from time import process_time

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "builder"), str(ROOT / "tests" / "engraving")]

from engraved_licks import PORCH, TORTURE, read  # noqa: E402

from lickwright.engraving.document import document  # noqa: E402
from lickwright.engraving.engrave import dress  # noqa: E402
from lickwright.engraving.renderer import render  # noqa: E402
from lickwright.model.orders import ScoreOrder  # noqa: E402

FOUR_BARS = """key: G major

G7 | 3:0 h 3:2 3:4 p 3:2  2:8b10r8 - 2:8~ -
   rh | d d * * d u
   lh | 0 1 3 1 4 4
Am7 | 3:5 s! 3:7 4:4 4:5  ring[2:3+3:4 - 1:3 -]
G | mute[6:3 6:3 5:x 5:x]  1:<12> - 2:15 p 2:12
D7 | 2:12pb14 - 1:10 -  3:12 - - -
"""
BUDGET = 8.0
"""Milliseconds of our own for both widths of a lick."""


def main(rounds: int = 15) -> None:
    """Measure three licks and print a table."""
    print("Milliseconds of CPU for both widths; ours = MEI + dress.")
    print(f"{'lick':12}{'Verovio':>10}{'MEI':>8}{'dress':>8}{'ours':>8}{'ratio':>8}{'kB':>8}")
    for name, text in (("two bars", PORCH), ("four bars", FOUR_BARS), ("every sign", TORTURE)):
        music = read(text)
        verovio, writing, dressing = [], [], []
        size = 0
        for _ in range(rounds):
            document.cache_clear()
            start = process_time()
            for _width in ("wide", "narrow"):
                made = document(music, "both")
            written = process_time()
            pages = {width: render(made.mei, width) for width in ("wide", "narrow")}
            rendered = process_time()
            engraved = [dress(ScoreOrder(music, name, width), made, *pages[width]) for width in pages]
            dressed = process_time()
            writing.append(written - start)
            verovio.append(rendered - written)
            dressing.append(dressed - rendered)
            size = sum(len(system.svg) for score in engraved for system in score.systems)
        ours = 1000 * (median(writing) + median(dressing))
        theirs = 1000 * median(verovio)
        print(
            f"{name:12}{theirs:10.1f}{1000 * median(writing):8.1f}{1000 * median(dressing):8.1f}"
            f"{ours:8.1f}{ours / theirs:8.2f}{size / 1000:8.1f}"
        )
    print(f"budget: {BUDGET} ms of our own for a lick (four bars)")


if __name__ == "__main__":
    main()
