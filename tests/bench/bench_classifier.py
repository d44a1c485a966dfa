"""False alarms of the note-role classifier on printed music, what it finds of planted slips, its speed.

Run by hand: ``python tests/bench/bench_classifier.py [--tunes N] [--slips N]``; two minutes for 100 tunes.
They are tunes of the Ryan collection out of music21's corpus, major and in two or four, over simple chords
of our own. Prints, judges nothing.
"""

import argparse
import random
import sys
import time
from collections import Counter
from pathlib import Path

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS / "analysis"), str(TESTS / "corpus"), str(TESTS.parent / "builder")]

from music21 import corpus  # noqa: E402
from music21.exceptions21 import Music21Exception  # noqa: E402
from scores import is_major_duple, read_corpus_tune, slip  # noqa: E402

from lickwright.analysis import RoleOf, classify  # noqa: E402
from lickwright.model.music import Piece  # noqa: E402

INTERVALS = (1, 2, 3, 5)
"""Frets off, either way; five is the neighbouring string."""


def main() -> None:
    """Print all figures."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--tunes", type=int, default=100)
    arguments.add_argument("--slips", type=int, default=8, help="of each kind, a tune")
    asked = arguments.parse_args()
    for style in ("plain", "country"):
        _report(style, asked.tunes, asked.slips)


def _report(style: str, count: int, slips: int) -> None:
    tunes = list(_tunes(style, count))
    start = time.process_time()
    roles = [classify(tune) for tune in tunes]
    spent = time.process_time() - start
    notes = sum(map(len, roles))
    unexplained, disconnected = sum(map(_unexplained, roles)), sum(map(_asked, roles))
    flagged = sum(_asked(each) > 0 for each in roles)
    print(f"{style}: {len(tunes)} tunes, {notes} notes, {1e6 * spent / notes:.0f} us a note")
    print(f"  unexplained {unexplained} ({1000 * unexplained / notes:.2f} in 1000)")
    print(f"  with disconnected {disconnected} ({1000 * disconnected / notes:.2f} in 1000), {flagged} tunes")
    source = random.Random(3)
    found: Counter[tuple[int, str]] = Counter()
    for tune, before in zip(tunes, roles, strict=True):
        for _ in range(slips):
            bar = source.randrange(len(tune.music.bars))
            if not tune.music.bars[bar].upper.sounds:
                continue
            sound = source.randrange(len(tune.music.bars[bar].upper.sounds))
            for frets in INTERVALS:
                after = classify(slip(tune, bar, sound, source.choice((-frets, frets))))
                found[frets, "planted"] += 1
                found[frets, "unexplained"] += _unexplained(after) > _unexplained(before)
                found[frets, "asked"] += _asked(after) > _asked(before)
    for frets in INTERVALS:
        planted = found[frets, "planted"]
        first, both = found[frets, "unexplained"] / planted, found[frets, "asked"] / planted
        print(f"  {frets} frets off: {first:.0%} unexplained, {both:.0%} with disconnected, of {planted}")


def _tunes(style: str, count: int) -> list[Piece]:
    names = sorted(path.name for path in map(Path, corpus.getPaths()) if "ryansMammoth" in str(path))
    random.Random(1).shuffle(names)
    kept: list[Piece] = []
    for name in names:
        if len(kept) == count:
            break
        try:
            tune = read_corpus_tune(name, style)
        except (AssertionError, AttributeError, StopIteration, KeyError, ValueError, Music21Exception):
            continue  # chords, irregular bars, or notes that are not on the neck
        if is_major_duple(tune):
            kept.append(tune)
    return kept


def _unexplained(roles: tuple[RoleOf, ...]) -> int:
    return sum(not role.role.explained for role in roles)


def _asked(roles: tuple[RoleOf, ...]) -> int:
    return sum(role.disconnected or not role.role.explained for role in roles)


if __name__ == "__main__":
    main()
