"""Material (b): voices of Bach's chorales over the chords of a human analyst's Roman numerals.

The numerals are those of A. Jones, D. Tymoczko and H. Robb in music21's corpus, the first twenty of
Riemenschneider's numbers. Numerals that spell a chord we have no symbol for stand as N.C. and are counted.
The key of a work is that of its first numeral, as an author would write it once; the chorales modulate.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from corpus_setting import Tune, read_part

from calibration.work import LeftOut, Work, put_chords, set_work
from lickwright.theory.chord import NO_CHORD, QUALITIES, Chord, ChordSymbol

VOICES = ("soprano", "alto", "tenor", "bass")
FITS = 0.6
"""Share of all voices' time on tones of the chords, below which score and analysis do not belong together."""
Numerals = dict[int, list[tuple[Fraction, ChordSymbol]]]


def read_chorales(voices: bool, left_out: Counter[str]) -> Iterator[Work]:
    """Read the analysed chorales: the soprano, or every voice as a work of its own."""
    from music21 import corpus

    for path in sorted(map(Path, corpus.getPaths())):
        if path.parent.name != "choraleAnalyses":
            continue
        found = re.search(r"^BWV: *(\S+)", path.read_text("utf-8"), re.MULTILINE)
        score: Any = _score(found[1]) if found else None
        if score is None:
            left_out[f"chorale {path.stem}: no score in the corpus"] += 1
            continue
        chords, key = _numerals(corpus.parse(f"bach/choraleAnalyses/{path.stem}"), left_out)
        parts = list(score.parts)[:4]
        share = _share(parts, chords)
        if share < FITS:
            left_out[f"chorale {path.stem}: the analysis does not lie on the score ({share:.0%})"] += 1
            continue
        for voice, part in zip(VOICES, parts, strict=True):
            if voice == "soprano" or voices:
                work = _work(part, f"{path.stem} {voice}", key, chords, left_out)
                if work is not None:
                    yield work


def _score(number: str) -> Any:
    from music21 import corpus
    from music21.exceptions21 import CorpusException

    try:
        return corpus.parse(f"bach/bwv{re.sub(r'[^0-9.].*$', '', number)}")
    except CorpusException:
        return None


def _work(part: Any, name: str, key: str, chords: Numerals, left_out: Counter[str]) -> Work | None:
    quality = "major" if key.endswith("major") else "minor"
    voice = name.rpartition(" ")[2]
    group = f"(b) {voice if voice == 'soprano' else 'lower voices'}, {quality}"
    reason = ""
    for down in (12, 0, -12):
        try:
            tune = read_part(part, name, down)
            work = set_work(_in_key(tune, key), group)
        except (LeftOut, ValueError, AttributeError) as fault:
            reason = str(fault)
            continue
        numbers = [measure.number for measure in part.getElementsByClass("Measure")]
        return put_chords(work, [chords.get(number, []) for number in numbers])
    left_out[f"chorale {name}: {reason}"] += 1
    return None


def _in_key(tune: Tune, key: str) -> Tune:
    return replace(tune, key=key)


def _numerals(analysis: Any, left_out: Counter[str]) -> tuple[Numerals, str]:
    numerals: Numerals = {}
    key = ""
    for measure in analysis.recurse().getElementsByClass("Measure"):
        for numeral in measure.getElementsByClass("RomanNumeral"):
            key = key or f"{numeral.key.tonic.name.replace('-', 'b')} {numeral.key.mode}"
            symbol = _symbol(numeral)
            if symbol is NO_CHORD:
                left_out[f"numeral {numeral.figure}, taken as N.C."] += 1
            left_out["numerals read"] += 1
            onset = Fraction(numeral.offset).limit_denominator(96)
            numerals.setdefault(measure.number, []).append((onset, symbol))
    return numerals, key


def _symbol(numeral: Any) -> ChordSymbol:
    """The symbol that has exactly the numeral's notes, on its root; augmented sixths on their bass."""
    semitones = {pitch.pitchClass for pitch in numeral.pitches}
    for low in (numeral.root(), numeral.bass()):
        tones = frozenset((semitone - low.pitchClass) % 12 for semitone in semitones)
        for quality in QUALITIES.values():
            if quality.tones == tones:
                return Chord.of(low.name.replace("-", "b"), quality.name)
    return NO_CHORD


def _share(parts: list[Any], chords: Numerals) -> float:
    inside = total = 0.0
    for part in parts:
        current: ChordSymbol = NO_CHORD
        for measure in part.getElementsByClass("Measure"):
            here = chords.get(measure.number, [])
            for note in measure.recurse().notes:
                onset = Fraction(note.getOffsetInHierarchy(measure)).limit_denominator(96)
                symbol = next((s for at, s in reversed(here) if at <= onset), current)
                total += float(note.quarterLength)
                inside += float(note.quarterLength) * (note.pitch.pitchClass in symbol.semitones)
            current = here[-1][1] if here else current
    return inside / total if total else 0.0
