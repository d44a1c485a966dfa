"""Material (c): the few melodies of music21's corpus that are printed with chords.

Two songs (S. Foster 1854, I. Berlin 1911), and two tunes of the Nottingham collection with the chords
of its players.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from corpus_setting import read_part

from calibration.work import LeftOut, Work, put_chords, set_work
from lickwright.theory.chord import NO_CHORD, ChordSymbol, parse_chord

SONGS = ("leadSheet/fosterBrownHair", "leadSheet/berlinAlexandersRagtime")
TUNES = "nottingham-dataset/reelsa-c"


def read_sheets(left_out: Counter[str]) -> Iterator[Work]:
    """Read every sheet; chords that we have no symbol for are counted, and N.C. stands for them."""
    from music21 import corpus

    parts: list[tuple[str, Any]] = [(name, corpus.parse(name).parts[0]) for name in SONGS]
    opus: Any = corpus.parse(TUNES)
    parts += [(f"{TUNES} {number}", score.parts[0]) for number, score in enumerate(opus.scores)]
    for name, part in parts:
        chords = _chords(part, left_out)
        for symbol in list(part.recurse().getElementsByClass("ChordSymbol")):
            symbol.activeSite.remove(symbol)
        try:
            work = set_work(read_part(part, name), "(c) printed chords")
            yield put_chords(work, chords)
        except (LeftOut, ValueError, AttributeError) as reason:
            left_out[f"sheet {name}: {reason}"] += 1


def _chords(part: Any, left_out: Counter[str]) -> list[list[tuple[Fraction, ChordSymbol]]]:
    changes = []
    for measure in part.getElementsByClass("Measure"):
        chords: list[tuple[Fraction, ChordSymbol]] = []
        for found in measure.getElementsByClass("ChordSymbol"):
            symbol = parse_chord(_written(found.figure))
            if symbol is None:
                left_out[f"chord {found.figure}, taken as N.C."] += 1
            chords.append((Fraction(found.offset).limit_denominator(96), symbol or NO_CHORD))
        changes.append(chords)
    return changes


def _written(figure: str) -> str:
    """Music21 writes a flat as a minus; the basses of the tunes are small letters, +: sharp."""
    figure = re.sub(r"^([A-G])-", r"\1b", figure)
    return re.sub(
        r"/([A-Ga-g])([+#-]?)$",
        lambda bass: f"/{bass[1].upper()}{bass[2]}".replace("+", "#").replace("-", "b"),
        figure,
    )
