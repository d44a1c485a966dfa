"""Chord symbols in a margin, a cell or a field, each perhaps a stop or placed on a beat."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.model.bar import MarginChord
from lickwright.reading.collector import quote
from lickwright.text import Span
from lickwright.theory.chord import ChordSymbol, parse_chord, suggest_chord

if TYPE_CHECKING:
    from lickwright.reading.collector import Collector
    from lickwright.reading.lines import Line

_WORD = re.compile(r"\S+")
_PLACED = re.compile(r"([^'@]+)('?)(?:@([0-9]{1,2})(&?))?('?)")
_TWO = re.compile(r"([A-G][^()\s]{0,12})\(([A-G][^()\s]{0,12})\)")
_MOST_FAULTS = 20


def read_chord(text: str, span: Span, found: Collector) -> ChordSymbol | None:
    """Read a chord symbol; None when it was reported that it is none."""
    chord = parse_chord(text)
    if chord is None:
        right = _suggest(text)
        found.add(
            "harmony/chord-symbol",
            f"{quote(text, 24)} is no chord symbol",
            span,
            hint=_hint(text, right),
            fix=right,
        )
    return chord


def _suggest(text: str) -> str | None:
    """Return the nearest symbol; a plain word, ``bass``, is near none, nor are two chords near one."""
    right = None if _find_two(text) else suggest_chord(text)
    word = text.isalpha() and text.islower() and len(text) > 3
    return None if word and right and not text[1:].startswith(right[1:].casefold()) else right


def _hint(text: str, right: str | None) -> str:
    two = _find_two(text)
    if two:
        return f"one chord, or two that share the bar with a blank between them: {two[1]} {two[2]}"
    return f"did you mean {right}?" if right else "a chord is its root and its quality, as in A7, F#m7b5, G/B"


def _find_two(text: str) -> re.Match[str] | None:
    found = _TWO.fullmatch(text)
    return found if found and parse_chord(found[1]) and parse_chord(found[2]) else None


def read_margin_chords(line: Line, found: Collector) -> tuple[MarginChord, ...]:
    """Read the chords of a margin or a cell, without those that were reported."""
    chords: list[MarginChord] = []
    faults = len(found.findings)
    for m in _WORD.finditer(line.text):
        span = Span(found.source, line.start + m.start(), line.start + m.end())
        chord = _read_margin_chord(m[0], span, found)
        if chord is not None:
            chords.append(chord)
        elif len(found.findings) - faults > _MOST_FAULTS:
            break
    return tuple(chords)


def _read_margin_chord(word: str, span: Span, found: Collector) -> MarginChord | None:
    parts = _PLACED.fullmatch(word)
    if not parts or (parts[2] and parts[5]):
        found.add(
            "syntax/margin",
            f"{quote(word, 24)} cannot be read in the margin",
            span,
            hint="a chord, ' behind it for a stop, @ and the beat it stands on: A7, A7', D7@3, D7@4&",
        )
        return None
    symbol = read_chord(parts[1], Span(span.source, span.start, span.start + len(parts[1])), found)
    if symbol is None:
        return None
    beat = int(parts[3]) if parts[3] else None
    return MarginChord(symbol, beat, bool(parts[4]), bool(parts[2] or parts[5]), span)
