"""Calibration: false alarms on correct music and what is found of planted slips, by material and style.

A false alarm is an error or a query of any rule. What the roles ask about has a table of its own, by tier.

Run by hand: ``python tests/bench/bench_calibration.py [--material abcde] [--half unseen] [--works N]
[--slips N] [--voices]``. Materials: (a) tunes with fitted chords, in two halves, (b) chorales with an
analyst's chords, (c) lead sheets with printed chords, (d) our courses, (e) our licks of a blues, which are
measured as that alone. Judges nothing.
"""

import argparse
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS / "analysis"), str(TESTS / "corpus"), str(TESTS.parent / "builder")]

from calibration.chorales import read_chorales  # noqa: E402
from calibration.courses import read_courses  # noqa: E402
from calibration.figures import (  # noqa: E402
    ALARMS_HEAD,
    HEAD,
    Figures,
    add,
    measure,
    report,
    report_alarms,
    report_checks,
)
from calibration.sheets import read_sheets  # noqa: E402
from calibration.tunes import HALVES, read_tunes  # noqa: E402
from calibration.work import STYLES, Work  # noqa: E402

BLUES = "blues"
TWELVE_BARS = TESTS / "courses" / "twelve-bars"


def main() -> None:
    """Print all figures."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--material", default="abcde", help="letters out of abcde")
    arguments.add_argument("--half", choices=HALVES, help="of the tunes; both without")
    arguments.add_argument("--style", choices=(*STYLES, BLUES), help="all without")
    arguments.add_argument("--works", type=int, default=80, help="of a kind and half of the tunes")
    arguments.add_argument("--slips", type=int, default=6, help="notes a work that slips are planted on")
    arguments.add_argument("--voices", action="store_true", help="all voices of the chorales, one at a time")
    asked = arguments.parse_args()
    start = time.process_time()
    left_out: Counter[str] = Counter()
    groups: dict[str, list[Work]] = defaultdict(list)
    for work in _works(asked, left_out):
        groups[work.group].append(work)
    for reason, number in sorted(left_out.items()):
        print(f"left out: {number} {reason}")
    styles = (asked.style,) if asked.style else (*STYLES, BLUES)
    measured: list[Figures] = []
    for style in styles:
        each = [
            measure(works, group, style, asked.slips)
            for group, works in sorted(groups.items())
            if (style == BLUES) == group.startswith("(e)")
        ]
        halves = [
            add((f for f in each if f.group.startswith(f"(a) {half}")), f"(a) {half}: all", style)
            for half in HALVES
        ]
        measured += [*(figures for figures in halves if figures.works), *each]
    measured.sort(key=lambda figures: figures.group)
    print("\n".join([ALARMS_HEAD, *map(report_alarms, measured), ""]))
    print("\n".join([HEAD, *(row for figures in measured for row in report(figures))]))
    print("\n".join(report_checks(figures) for figures in measured))
    notes, seconds = sum(f.notes for f in measured), sum(f.seconds for f in measured)
    print(f"roles: {1e6 * seconds / max(1, notes):.0f} us a note;", end=" ")
    print(f"in all {time.process_time() - start:.0f} s of CPU")


def _works(asked: argparse.Namespace, left_out: Counter[str]) -> Iterator[Work]:
    if "a" in asked.material:
        for half in (asked.half,) if asked.half else HALVES:
            yield from read_tunes(half, asked.works, left_out)
    if "b" in asked.material:
        yield from read_chorales(asked.voices, left_out)
    if "c" in asked.material:
        yield from read_sheets(left_out)
    if "d" in asked.material:
        courses = sorted({*(TESTS / "courses").glob("*")} - {TWELVE_BARS})
        yield from read_courses((TESTS.parent / "content", *courses))
    if "e" in asked.material:
        yield from (replace(work, group="(e) twelve-bars") for work in read_courses((TWELVE_BARS,)))


if __name__ == "__main__":
    main()
