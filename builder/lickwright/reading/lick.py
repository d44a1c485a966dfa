"""A ``lick`` block: fields, an empty line, bars with their rows; or the changes of a variation."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix, Label
from lickwright.model.address import Address
from lickwright.model.bar import ROW_KINDS, Bar, Margin, Row, RowKind, Voice
from lickwright.model.blocks import Lick
from lickwright.model.fields import Change, Shape
from lickwright.model.slots import Rest
from lickwright.reading import sayings, values
from lickwright.reading.agreement import check_step, check_tempi
from lickwright.reading.bars import split_bar
from lickwright.reading.collector import Collector, quote
from lickwright.reading.fields import Field, Table, Values, split_field
from lickwright.reading.lines import Body, Line, note_odd_blanks
from lickwright.reading.margins import check_beats, read_margin
from lickwright.reading.repeats import check_repeats
from lickwright.reading.rows import find_row_kind, read_row
from lickwright.reading.strikes import Hand, read_strike
from lickwright.reading.voices import VoiceLine, VoiceReader
from lickwright.text import Span
from lickwright.theory.chord import parse_chord
from lickwright.theory.meter import Meter

if TYPE_CHECKING:
    from lickwright.instrument.tuning import Tuning

FIELDS: Table = {
    "title": ("title", values.read_text),
    "key": ("key", values.read_key),
    "meter": ("meter", values.read_meter),
    "step": ("step", values.read_length),
    "tempo": ("tempo", values.read_tempo),
    "slow": ("slow", values.read_tempo),
    "ladder": ("ladder", values.read_ladder),
    "feel": ("feel", values.read_feel),
    "over": ("over", sayings.read_over),
    "position": ("position", sayings.read_position),
    "picking": ("picking", sayings.read_picking),
    "claims": ("claims", sayings.read_claims),
    "pickup": ("pickup", values.read_length),
    "tuning": ("tuning", values.read_tuning),
    "capo": ("capo", values.read_capo),
    "ending": ("ending", values.read_ending),
    "source": ("source", values.read_source),
    "take": ("take", values.read_take),
    "tags": ("tags", values.read_tags),
    "vary": ("vary", values.read_name),
    "stet": ("stets", sayings.read_stet),
}
_ROW = re.compile(r"\s*([^\s|:]{1,9})\s*\|(?!:)")
_ROWS: dict[str, RowKind | None] = {**{kind: kind for kind in ROW_KINDS}, "low": None}
_MOST_SURPLUS = 8
"""Bars after the first of a line whose slots are looked at too."""
_SHAPE_NAME = re.compile(r"[A-Za-z][A-Za-z0-9#♯♭-]*")
_NO_SHAPES = frozenset({"h", "p", "s", "r", "g", "ring", "mute", "open"})
_COMMON_TIME = Meter(4, 4)


@dataclass(slots=True)
class _RawBar:
    """A bar whose rows are still coming."""

    margin: Margin
    upper: VoiceLine
    span: Span
    lower: VoiceLine | None = None
    upper_rows: list[Row] = field(default_factory=list)
    lower_rows: list[Row] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    def freeze(self) -> Bar:
        upper = Voice(tuple(self.upper.slots), tuple(self.upper_rows), self.upper.span)
        lower = None
        if self.lower is not None:
            lower = Voice(tuple(self.lower.slots), tuple(self.lower_rows), self.lower.span)
        return Bar(self.margin, upper, lower, self.span)


def read_lick(body: Body, found: Collector, strings: int) -> Lick:
    """Read a lick block.

    Args:
        body: The block.
        found: Where faults go; its ``block`` is the lick's name.
        strings: How many strings the guitar has when the lick does not name a tuning.

    Returns:
        The lick as far as it could be read.
    """
    reader = _LickReader(body, found, Hand(found, strings))
    reader.set_tuning()
    for line in body.lines:
        reader.read_line(line)
    return reader.finish()


@dataclass(slots=True)
class _LickReader:
    body: Body
    found: Collector
    hand: Hand
    values: Values = field(default_factory=Values)
    changes: dict[Address, Change] = field(default_factory=dict)
    bars: list[_RawBar] = field(default_factory=list)
    apart: bool = True  # an empty line since the last field
    late: bool = False  # a field after the first bar has been reported
    upper: VoiceReader = field(init=False)
    lower: VoiceReader = field(init=False)

    def __post_init__(self) -> None:
        self.upper = VoiceReader(self.hand)
        self.lower = VoiceReader(self.hand)

    def set_tuning(self) -> None:
        """Look up the lick's own tuning first: it says which strings there are."""
        for line in self.body.lines:
            item = split_field(line) if "tuning" in line.text else None
            if item and item.key == "tuning":
                tuning: Tuning | None = values.read_tuning(item.value, Collector(self.found.source))
                if tuning is not None:
                    self.hand.strings = tuning.count
                return

    def read_line(self, line: Line) -> None:
        """Read the next line of the block."""
        if line.blank:
            self.apart = True
            return
        if line.text.lstrip().startswith(";"):
            return
        item = split_field(line)
        if item is not None:
            self._read_field(item)
            return
        if not self.apart:
            start = Span(self.found.source, line.start, line.start)
            fix = Fix("put an empty line before it", (Edit(start, "\n"),))
            message = "the music begins straight after the fields, with no empty line between"
            self.found.add("syntax/missing-blank-line", message, start, fix=fix)
            self.apart = True
        self._read_music(line)

    # Fields

    def _read_field(self, item: Field) -> None:
        span = Span(self.found.source, item.name.start, item.name.end)
        if not self.bars:
            self.apart = item.is_change
        elif not self.late:
            self.late = True
            hint = "fields come first, then an empty line, then the bars"
            self.found.add(
                "syntax/field-place",
                f"the field {quote(item.name.text)} stands after the first bar",
                span,
                hint=hint,
            )
        if item.is_change:
            self._read_change(item, span)
        elif item.key.startswith("shape "):
            self._read_shape(item, span)
        else:
            self.values.take(item, FIELDS, "lick", self.found, extra=("shape NAME",), late=self.late)

    def _read_shape(self, item: Field, span: Span) -> None:
        name = item.name.text[5:].strip()
        place = Span(self.found.source, item.value.start, item.value.end)
        self.values.places.append(("shape", place))
        if not _SHAPE_NAME.fullmatch(name) or name in _NO_SHAPES:
            hint = "a shape's name is letters, digits and hyphens, as in shape G: 6:3+5:2+4:0"
            self.found.add("syntax/field-value", f"{quote(name)} cannot name a shape", span, hint=hint)
            return
        if name in self.hand.shapes:
            self.found.add("syntax/field-twice", f"the shape {name} is given twice", span)
            return
        plain = Hand(self.found, self.hand.strings)
        strike = read_strike(item.value.text, item.value.start, plain) if item.value.text else None
        if strike is not None:
            self.hand.shapes[name] = Shape(name, strike, span.to(place))
        elif not item.value.text:
            self.found.add("syntax/field-value", f"the shape {name} has no notes", span)

    def _read_change(self, item: Field, span: Span) -> None:
        address = Address.parse(item.key)
        if address is None or address.sound == 0:
            self.found.add(
                "syntax/change",
                f"{quote(item.name.text)} is no address of a sound",
                span,
                hint="sounds count from 1",
            )
            return
        if address in self.changes:
            label = (Label(self.changes[address].span, "first changed here"),)
            self.found.add("syntax/field-twice", f"the sound {address} is changed twice", span, labels=label)
            return
        place = Span(self.found.source, item.value.start, item.value.end)
        words = item.value.text.split()
        if len(words) != 1 or words[0] in ("-", "h", "p", "s", "s!"):
            hint = "a change is one sound in the place of another, 1.2: 5:3, or a rest, 1.2: ."
            self.found.add(
                "syntax/change",
                f"{quote(item.value.text) or 'nothing'} cannot take the place of a sound",
                place if words else span,
                hint=hint,
            )
            return
        to = Rest(place) if words[0] == "." else read_strike(words[0], item.value.start, self.hand)
        if to is not None:
            self.changes[address] = Change(address, to, span.to(place))

    # Music

    def _read_music(self, line: Line) -> None:
        line = line.uncommented()
        note_odd_blanks(line, self.found)
        m = _ROW.match(line.text)
        if m:
            kind = m[1] if m[1] in _ROWS else self._mend_row_kind(m[1], line.part(m.start(1), m.end(1)))
            if kind is not None:
                self._read_row(kind, line.part(m.start(1), m.end(1)), line.part(m.end()))
                return
        self._read_bar(line)

    def _mend_row_kind(self, word: str, place: Line) -> str | None:
        if (len(word) < 4 and word.casefold() not in _ROWS) or parse_chord(word) is not None:
            return None
        kind = find_row_kind(word)
        if kind is not None:
            span = Span(self.found.source, place.start, place.end)
            self.found.add("syntax/row-kind", f"{word} is no row: {kind} is", span, fix=kind)
        return kind

    def _read_bar(self, line: Line) -> None:
        number = len(self.bars) + (0 if self._has_pickup else 1)
        self.found.address = str(number)
        pieces = split_bar(line, self.found)
        if pieces is None:
            return
        self._end_lower()
        whole = line.strip()
        margin = read_margin(
            pieces.margin, self.found, opens=pieces.opens, closes=pieces.closes, times=pieces.times
        )
        upper = self.upper.read(pieces.slots.strip())
        if pieces.surplus is not None:
            for music in pieces.surplus.split("|")[:_MOST_SURPLUS]:
                if ":" in music.text:
                    VoiceReader(self.hand).read(music)
        self.bars.append(_RawBar(margin, upper, Span(self.found.source, whole.start, whole.end)))

    def _read_row(self, kind: str, name: Line, line: Line) -> None:
        span = Span(self.found.source, name.start, name.end)
        if not self.bars:
            self.found.add(
                "syntax/row-place",
                f"{kind} stands above the first bar",
                span,
                hint="a row stands under its bar",
            )
            return
        second = line.text.find("|")
        if second >= 0:
            at = Span(self.found.source, line.start + second, line.start + second + 1)
            fix = "" if not line.text[second + 1 :].strip() else None
            self.found.add(
                "syntax/second-bar", "a second | in the line", at, hint="a row belongs to one bar", fix=fix
            )
            line = line.part(0, second)
        bar = self.bars[-1]
        key = f"low {kind}" if bar.lower is not None and kind != "low" else kind
        if key in bar.seen:
            self.found.add("syntax/row-twice", f"{kind} stands twice under this bar", span, hint="keep one")
            return
        bar.seen.add(key)
        number = self.found.address.removeprefix("low")
        row = _ROWS[kind]
        if row is None:
            self.found.address = f"low{number}"
            bar.lower = self.lower.read(line.strip())
            return
        voice = bar.upper if bar.lower is None else bar.lower
        read = read_row(row, line.strip(), voice.sounds, self.found)
        if read is not None:
            (bar.upper_rows if bar.lower is None else bar.lower_rows).append(read)

    def _end_lower(self) -> None:
        if self.bars and self.bars[-1].lower is None:
            self.lower.finish()

    @property
    def _has_pickup(self) -> bool:
        return any(name == "pickup" for name, _ in self.values.places)

    # The whole

    def finish(self) -> Lick:
        """Report what can be said only at the end, and return the lick."""
        self.upper.finish()
        self.lower.finish()
        self.found.address = ""
        known = self.values.by_name
        opening = Span(self.found.source, self.body.opening.start, self.body.opening.end)
        if any(name == "vary" for name, _ in self.values.places):
            if self.bars:
                hint = "write what changes as ADDRESS: STRIKE, 1.2: 5:3, or leave out vary"
                self.found.add(
                    "syntax/change",
                    "a variation takes its bars from its base and has none of its own",
                    self.bars[0].span,
                    hint=hint,
                )
                self.bars.clear()
        elif self.changes:
            change = next(iter(self.changes.values()))
            self.found.add(
                "syntax/change",
                "a change needs the lick it changes",
                change.span,
                hint="name it in a field: vary: NAME",
            )
            self.changes.clear()
        elif not self.bars:
            hint = "a bar is its chord, a |, and its slots: A7 | 5:0 5:4"
            self.found.add("syntax/block-empty", "the lick has no bar", opening, hint=hint)
        bars = tuple(bar.freeze() for bar in self.bars)
        meter: Meter | None = known.get("meter") or (None if "vary" in known else _COMMON_TIME)
        if meter is not None:
            check_step(self.values, meter, tuple(bar.margin for bar in bars), opening, self.found)
            self._check_beats(bars, meter)
        check_tempi(known, meter, self.values, self.found)
        check_repeats([(bar.margin, bar.span) for bar in bars], self.found)
        return Lick(
            self.found.block,
            bars,
            shapes=tuple(self.hand.shapes.values()),
            changes=tuple(self.changes.values()),
            span=opening,
            places=self.values.place_tuple(),
            **known,
        )

    def _check_beats(self, bars: tuple[Bar, ...], meter: Meter) -> None:
        for number, bar in enumerate(bars, 0 if self._has_pickup else 1):
            self.found.address = str(number)
            meter = bar.margin.meter or meter
            if number:
                check_beats(bar.margin.chords, meter, self.found)
        self.found.address = ""
