"""Bar lines as text, the rows aligned under the sounds they speak of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.reading.printing.slots import Token, print_tokens

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.model.bar import Bar, Entry, Margin, MarginChord, Row, Voice
    from lickwright.model.fields import Shape

_INDENT = 3


def print_bars(bars: Iterable[Bar], shapes: Iterable[Shape] = ()) -> str:
    """Return bar lines with their rows, all bar lines in one column."""
    written = tuple(bars)
    known = tuple(shapes)
    width = max((_measure_head(bar) for bar in written), default=0)
    return "\n".join(_print(bar, known, width) for bar in written)


def print_bar(bar: Bar, shapes: Iterable[Shape] = ()) -> str:
    """Return one bar line with its rows."""
    return print_bars((bar,), shapes)


def print_margin(margin: Margin) -> str:
    """Return what stands before the bar line, repeat signs left out."""
    parts: list[str] = []
    if margin.endings:
        first, last = margin.endings[0], margin.endings[-1]
        parts.append(f"{first}." if first == last else f"{first}.-{last}.")
    if margin.meter is not None:
        parts.append(str(margin.meter))
    parts += [print_chord(chord) for chord in margin.chords]
    return " ".join(parts)


def print_chord(chord: MarginChord) -> str:
    """Return a chord of a margin: ``A7``, ``A7'``, ``D7@4&``."""
    beat = f"@{chord.beat}{'&' if chord.half else ''}" if chord.beat is not None else ""
    return f"{chord.symbol.symbol}{chr(39) if chord.stop else ''}{beat}"


def print_closing(margin: Margin) -> str:
    """Return ``:|``, with ``x3`` where it is said; empty when the bar closes no repeat."""
    if not margin.closes:
        return ""
    return f":| x{margin.times}" if margin.times is not None else ":|"


def print_entry(entry: Entry, kind: str) -> str:
    """Return an entry of a row."""
    values = ["*" if value is None else value for value in entry.values]
    return ("" if kind in ("rh", "lh") else "+").join(values)


def _measure_head(bar: Bar) -> int:
    labels: list[str] = [row.kind for row in bar.upper.rows]
    if bar.lower is not None:
        labels += ["low", *(row.kind for row in bar.lower.rows)]
    return max([len(print_margin(bar.margin)), *(_INDENT + len(label) for label in labels)])


def _print(bar: Bar, shapes: tuple[Shape, ...], width: int) -> str:
    line = "|:" if bar.margin.opens else "|"
    lines = _print_voice(bar.upper, shapes, f"{print_margin(bar.margin):<{width}} {line}", width)
    closing = print_closing(bar.margin)
    if closing:
        lines[0] = f"{lines[0]} {closing}"
    if bar.lower is not None:
        lines += _print_voice(bar.lower, shapes, f"{'   low':<{width}} |", width)
    return "\n".join(lines)


def _print_voice(voice: Voice, shapes: tuple[Shape, ...], head: str, width: int) -> list[str]:
    tokens = print_tokens(voice.slots, shapes)
    texts = [[print_entry(entry, row.kind) for entry in row.entries] for row in voice.rows]
    columns, sounds = _lay_out(tokens, texts)
    lines = [f"{head} {_place([token.text for token in tokens], columns)}".rstrip()]
    for row, entries in zip(voice.rows, texts, strict=True):
        lines.append(f"{_label(row):<{width}} | {_place(entries, sounds)}".rstrip())
    return lines


def _label(row: Row) -> str:
    return " " * _INDENT + row.kind


def _lay_out(tokens: list[Token], rows: list[list[str]]) -> tuple[list[int], list[int]]:
    """Return the column of each token, and of each sound, wide enough for every entry."""
    columns: list[int] = []
    sounds: list[int] = []
    at = free = 0  # the next column, and the first that the entries leave free
    for token in tokens:
        if token.sounds:
            at = max(at, free - token.sounds[0])
        columns.append(at)
        for offset in token.sounds:
            number = len(sounds)
            sounds.append(at + offset)
            widest = max((len(row[number]) for row in rows if number < len(row)), default=0)
            free = at + offset + widest + 1
        at += len(token.text) + 1
    return columns, sounds


def _place(texts: list[str], columns: list[int]) -> str:
    line = ""
    for text, column in zip(texts, columns, strict=False):
        line = f"{line:<{column}}{text}"
    return line
