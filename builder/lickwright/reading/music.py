"""The music of a lick: bar lines and the rows under them, in turn."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.model.bar import ROW_KINDS, Bar, Margin, Row, RowKind, Voice
from lickwright.reading.bars import split_bar
from lickwright.reading.lines import Line, note_odd_blanks
from lickwright.reading.margins import read_margin
from lickwright.reading.rows import find_row_kind, read_row
from lickwright.reading.stringless import is_tablature
from lickwright.reading.voices import VoiceLine, VoiceReader
from lickwright.text import Span
from lickwright.theory.chord import parse_chord

if TYPE_CHECKING:
    from lickwright.reading.collector import Collector
    from lickwright.reading.fields import Field
    from lickwright.reading.strikes import Hand

_ROW = re.compile(r"\s*([^\s|:]{1,9})\s*\|(?!:)")
_ROWS: dict[str, RowKind | None] = {**{kind: kind for kind in ROW_KINDS}, "low": None}
_HABITS = {
    **dict.fromkeys(("fingers", "fingering", "left", "frets"), "lh"),
    **dict.fromkeys(("right", "picking", "pick", "strokes"), "rh"),
    **dict.fromkeys(("notes", "note", "pitches"), "names"),
    **dict.fromkeys(("degree", "intervals", "numbers"), "degrees"),
    **dict.fromkeys(("bass", "lower", "thumb", "voice"), "low"),
    **dict.fromkeys(("effects", "marks"), "signs"),
}
"""What rows are called elsewhere."""
_MOST_SURPLUS = 8
"""Bars after the first of a line whose slots are looked at too."""


@dataclass(slots=True)
class RawBar:
    """A bar whose rows are still coming."""

    margin: Margin
    upper: VoiceLine
    span: Span
    lower: VoiceLine | None = None
    upper_rows: list[Row] = field(default_factory=list)
    lower_rows: list[Row] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    def freeze(self) -> Bar:
        """Return the bar, now that its rows are known."""
        upper = Voice(tuple(self.upper.slots), tuple(self.upper_rows), self.upper.span)
        lower = None
        if self.lower is not None:
            lower = Voice(tuple(self.lower.slots), tuple(self.lower_rows), self.lower.span)
        return Bar(self.margin, upper, lower, self.span)


@dataclass(slots=True)
class MusicReader:
    """Reads the bar lines and rows of a lick.

    Attributes:
        hand: What slots are read against.
        pickup: True when the first bar is bar 0.
        bars: As read so far.
        tablature: True when lines of tablature were met, and reported.
    """

    hand: Hand
    pickup: bool = False
    bars: list[RawBar] = field(default_factory=list)
    tablature: bool = False
    _upper: VoiceReader = field(init=False)
    _lower: VoiceReader = field(init=False)

    def __post_init__(self) -> None:
        self._upper = VoiceReader(self.hand)
        self._lower = VoiceReader(self.hand)

    @property
    def _found(self) -> Collector:
        return self.hand.found

    def finish(self) -> tuple[Bar, ...]:
        """Report what is still open at the end, and return the bars."""
        self._upper.finish()
        self._lower.finish()
        self._found.address = ""
        return tuple(bar.freeze() for bar in self.bars)

    def read_line(self, line: Line) -> None:
        """Read a bar line, or a row under the last one."""
        line = line.uncommented()
        if is_tablature(line.text):
            self._refuse_tablature(line.strip())
            return
        note_odd_blanks(line, self._found)
        m = _ROW.match(line.text)
        if m:
            kind = m[1] if m[1] in _ROWS else self._mend_row_kind(m[1], line.part(m.start(1), m.end(1)))
            if kind is not None:
                self._read_row(kind, line.part(m.start(1), m.end(1)), line.part(m.end()))
                return
        self._read_bar(line)

    def read_colon_row(self, item: Field) -> bool:
        """Read ``names: A C#``, a row with a colon in the place of its ``|``; False when it is none."""
        word = item.name.text
        if word not in _ROWS:
            return False
        if self.bars:
            colon = item.name.end
            span = Span(self._found.source, item.name.start, colon + 1)
            message = f"a row is written with a bar line, {word} |, not with a colon"
            self._found.add("syntax/row-kind", message, span, fix=f"{word} |")
        self._read_row(word, item.name, item.value.uncommented())
        return True

    def _refuse_tablature(self, line: Line) -> None:
        if not self.tablature:
            self.tablature = True
            hint = "a slot is STRING:FRET: 2:1 - 1:0 - is string 2 at fret 1, held, then string 1 open, held"
            span = Span(self._found.source, line.start, line.end)
            message = "a line of tablature: a bar is written as one line of slots, not a line a string"
            self._found.add("syntax/habit", message, span, hint=hint)

    def _mend_row_kind(self, word: str, place: Line) -> str | None:
        if (len(word) < 4 and word.casefold() not in _ROWS) or parse_chord(word) is not None:
            return None
        kind = find_row_kind(word) or _HABITS.get(word.casefold())
        if kind is not None and self.bars:
            span = Span(self._found.source, place.start, place.end)
            self._found.add("syntax/row-kind", f"{word} is no row: {kind} is", span, fix=kind)
        return kind

    def _read_bar(self, line: Line) -> None:
        number = len(self.bars) + (0 if self.pickup else 1)
        self._found.address = str(number)
        pieces = split_bar(line, self._found)
        if pieces is None:
            return
        self._end_lower()
        whole = line.strip()
        margin = read_margin(
            pieces.margin, self._found, opens=pieces.opens, closes=pieces.closes, times=pieces.times
        )
        upper = self._upper.read(pieces.slots.strip())
        if pieces.surplus is not None:
            for music in pieces.surplus.split("|")[:_MOST_SURPLUS]:
                if ":" in music.text:
                    VoiceReader(self.hand).read(music)
        self.bars.append(RawBar(margin, upper, Span(self._found.source, whole.start, whole.end)))

    def _read_row(self, kind: str, name: Line, line: Line) -> None:
        span = Span(self._found.source, name.start, name.end)
        if not self.bars:
            self._found.add(
                "syntax/row-place",
                f"{kind} stands above the first bar",
                span,
                hint="a row stands under its bar",
            )
            return
        second = line.text.find("|")
        if second >= 0:
            at = Span(self._found.source, line.start + second, line.start + second + 1)
            fix = "" if not line.text[second + 1 :].strip() else None
            self._found.add(
                "syntax/second-bar", "a second | in the line", at, hint="a row belongs to one bar", fix=fix
            )
            line = line.part(0, second)
        bar = self.bars[-1]
        key = f"low {kind}" if bar.lower is not None and kind != "low" else kind
        if key in bar.seen:
            self._found.add("syntax/row-twice", f"{kind} stands twice under this bar", span, hint="keep one")
            return
        bar.seen.add(key)
        number = self._found.address.removeprefix("low")
        row = _ROWS[kind]
        if row is None:
            self._found.address = f"low{number}"
            bar.lower = self._lower.read(line.strip())
            return
        voice = bar.upper if bar.lower is None else bar.lower
        read = read_row(row, line.strip(), voice.sounds, self._found)
        if read is not None:
            (bar.upper_rows if bar.lower is None else bar.lower_rows).append(read)

    def _end_lower(self) -> None:
        if self.bars and self.bars[-1].lower is None:
            self._lower.finish()
