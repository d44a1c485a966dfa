"""Material (a): tunes of the public domain with fitted chords, in two halves.

Ryan's Mammoth Collection (Boston 1883), and for three in a bar Aird's Airs (Glasgow 1782 to 1803) and
O'Neill's Music of Ireland (Chicago 1903), as music21's corpus has them. The names of a collection are
sorted and shuffled with seed 1: the first half is for tuning, the second is not looked at while tuning,
only its sums are printed. Every earlier calibration took its tunes from the beginning of the same
shuffle. Tunes that a test names are for tuning wherever they fall.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from statistics import mode
from typing import Any

import scores
import test_ryan
from corpus_setting import Tune, read_part

from calibration.fitted import find_key, fit_chords
from calibration.work import LeftOut, Work, put_chords, set_work

HALVES = ("tuning", "unseen")
THREE = re.compile(r"^M: *3/4", re.MULTILINE)
OTHERS = ("airdsAirs", "oneills1850")
NAMED = frozenset({*scores.TUNES, *test_ryan.TUNES})


def list_names(half: str) -> list[str]:
    """Names of the Ryan tunes of a half, shuffled."""
    from music21 import corpus

    names = sorted(path.name for path in map(Path, corpus.getPaths()) if "ryansMammoth" in str(path))
    return _half(names, half)


def _half(names: list[str], half: str) -> list[str]:
    shuffled = list(names)
    random.Random(1).shuffle(shuffled)
    middle = len(shuffled) // 2
    named = [name for name in shuffled[middle:] if Path(name).stem in NAMED]
    if half == "tuning":
        return shuffled[:middle] + named
    return [name for name in shuffled[middle:] if name not in named]


def read_tunes(half: str, count: int, left_out: Counter[str]) -> Iterator[Work]:
    """Read up to ``count`` tunes of a half and kind: major and duple, compound or minor, three in a bar."""
    from music21 import corpus

    kept: Counter[str] = Counter()
    for name in list_names(half):
        if kept["duple"] >= count and kept["other"] >= count:
            break
        tune = _read(lambda name=name: corpus.parse(f"ryansMammoth/{name}"), name, left_out)
        work = None if tune is None else _work(tune, half, left_out)
        if work is None:
            continue
        kind = "duple" if work.group.endswith("major, duple") else "other"
        if kept[kind] < count:
            kept[kind] += 1
            yield work
    yield from _read_threes(half, count, left_out)


def _read_threes(half: str, count: int, left_out: Counter[str]) -> Iterator[Work]:
    from music21 import converter, corpus

    texts: dict[str, str] = {}
    for path in sorted(map(Path, corpus.getPaths())):
        if path.parent.name in OTHERS and path.suffix == ".abc":
            for number, text in enumerate(re.split(r"(?m)^(?=X:)", path.read_text("utf-8", "replace"))):
                if text.startswith("X:") and THREE.search(text):
                    texts[f"{path.stem} {number:03d}"] = text
    kept = 0
    for name in _half(list(texts), half):
        if kept == count:
            break
        tune = _read(lambda name=name: converter.parse(texts[name], format="abc"), name, left_out)
        work = None if tune is None else _work(tune, half, left_out)
        if work is not None:
            kept += 1
            yield work


def _read(parse: Any, name: str, left_out: Counter[str]) -> Tune | None:
    from music21.exceptions21 import Music21Exception

    try:
        return read_part(parse().parts[0], name)
    except (AttributeError, StopIteration, KeyError, ValueError, IndexError, Music21Exception):
        left_out["not readable: chords, irregular repeats"] += 1
        return None


def _work(tune: Tune, half: str, left_out: Counter[str]) -> Work | None:
    try:
        key = find_key(tune)
        meter = mode(bar.meter for bar in tune.measures)
        count, unit = map(int, meter.split("/"))
        time = "compound" if unit == 8 and count % 3 == 0 else "three" if count == 3 else "duple"
        quality = "major" if key.endswith("major") else "minor and modal"
        work = set_work(replace(tune, key=key), f"(a) {half}: {quality}, {time}")
        return put_chords(work, fit_chords(work.piece))
    except (LeftOut, StopIteration, ValueError) as reason:
        left_out[str(reason) or "irregular bars"] += 1
        return None
