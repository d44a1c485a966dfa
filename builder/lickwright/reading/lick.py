"""A ``lick`` block: fields, an empty line, bars with their rows; or the changes of a variation."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix
from lickwright.model.address import Address
from lickwright.model.bar import Bar
from lickwright.model.blocks import Lick
from lickwright.model.fields import Change
from lickwright.reading import sayings, values
from lickwright.reading.agreement import check_step, check_tempi
from lickwright.reading.collector import Collector, quote
from lickwright.reading.definitions import read_change, read_shape
from lickwright.reading.fields import Field, Table, Values, split_field
from lickwright.reading.lines import Body, Line
from lickwright.reading.margins import check_beats, check_pickup_beats
from lickwright.reading.music import MusicReader
from lickwright.reading.repeats import check_repeats
from lickwright.reading.strikes import Hand
from lickwright.text import Span
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
_COLONLESS = re.compile(r"\s*((?:low)?[0-9]{1,4}\.[0-9]{1,4})\s+(\S+)\s*")
_COMMON_TIME = Meter(4, 4)


def read_lick(body: Body, found: Collector) -> Lick:
    """Read a lick block.

    Args:
        body: The block.
        found: Where faults go; its ``block`` is the lick's name.

    Returns:
        The lick as far as it could be read.
    """
    inherited = {shape.name: shape for shape in body.shapes}
    reader = _LickReader(body, found, Hand(found, body.strings, inherited=inherited, tuning=body.tuning))
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
    apart: bool = True  # an empty line since the last field
    late: bool = False  # a field after the first bar has been reported
    music: MusicReader = field(init=False)

    def __post_init__(self) -> None:
        self.music = MusicReader(self.hand)

    def set_tuning(self) -> None:
        """Look up the lick's own tuning first: it says which strings there are."""
        for line in self.body.lines:
            item = split_field(line) if "tuning" in line.text else None
            if item and item.key == "tuning":
                tuning: Tuning | None = values.read_tuning(item.value, Collector(self.found.source))
                if tuning is not None:
                    self.hand.strings, self.hand.tuning = tuning.count, tuning
                return

    def read_line(self, line: Line) -> None:
        """Read the next line of the block."""
        if line.blank:
            self.apart = True
            return
        if line.text.lstrip().startswith(";"):
            return
        item = split_field(line) or self._mend_change(line)
        if item is not None:
            if not self.music.read_colon_row(item):
                self._read_field(item)
            return
        bars = len(self.music.bars)
        self.music.pickup = self._has_pickup
        self.music.read_line(line)
        if not self.apart and len(self.music.bars) > bars:  # else the line has a fault of its own
            start = Span(self.found.source, line.start, line.start)
            fix = Fix("put an empty line before it", (Edit(start, "\n"),))
            message = "the music begins straight after the fields, with no empty line between"
            self.found.add("syntax/missing-blank-line", message, start, fix=fix)
        self.apart = True

    def _mend_change(self, line: Line) -> Field | None:
        """Read ``1.2 3:3``, a change without its colon, in a variation."""
        m = _COLONLESS.fullmatch(line.text) if "|" not in line.text else None
        if m is None or not any(name == "vary" for name, _ in self.values.places):
            return None
        name = line.part(m.start(1), m.end(1))
        after = Span(self.found.source, name.end, name.end)
        message = f"a change needs a colon after its address: {m[1]}: {m[2]}"
        self.found.add("syntax/change", message, after, fix=":")
        return Field(name, m[1], line.part(m.start(2), m.end(2)))

    def _read_field(self, item: Field) -> None:
        span = Span(self.found.source, item.name.start, item.name.end)
        if not self.music.bars:
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
            read_change(item, self.changes, self.hand)
        elif item.key.startswith("shape "):
            self.values.places.append(("shape", Span(self.found.source, item.value.start, item.value.end)))
            read_shape(item, self.hand)
        else:
            self.values.take(item, FIELDS, "lick", self.found, extra=("shape NAME",), late=self.late)

    @property
    def _unread(self) -> bool:
        """True when the step or the meter is given but could not be read."""
        given = {name for name, _ in self.values.places}
        return any(name in given and name not in self.values.by_name for name in ("step", "meter"))

    @property
    def _has_pickup(self) -> bool:
        return any(name == "pickup" for name, _ in self.values.places)

    def finish(self) -> Lick:
        """Report what can be said only at the end, and return the lick."""
        bars = self.music.finish()
        known = self.values.by_name
        opening = Span(self.found.source, self.body.opening.start, self.body.opening.end)
        if any(name == "vary" for name, _ in self.values.places):
            if self.music.bars:
                hint = "write what changes as ADDRESS: STRIKE, 1.2: 5:3, or leave out vary"
                self.found.add(
                    "syntax/change",
                    "a variation takes its bars from its base and has none of its own",
                    self.music.bars[0].span,
                    hint=hint,
                )
                bars = ()
        elif self.changes:
            change = next(iter(self.changes.values()))
            self.found.add(
                "syntax/change",
                "a change needs the lick it changes",
                change.span,
                hint="name it in a field: vary: NAME",
            )
            self.changes.clear()
        elif not self.music.bars and not self.music.tablature:
            hint = "a bar is its chord, a |, and its slots: A7 | 5:0 5:4"
            self.found.add("syntax/block-empty", "the lick has no bar", opening, hint=hint)
        meter: Meter | None = known.get("meter") or (None if "vary" in known else _COMMON_TIME)
        if meter is not None and not self._unread:
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
            elif (pickup := self.values.by_name.get("pickup")) is not None:
                check_pickup_beats(bar.margin.chords, meter, pickup, self.found)
        self.found.address = ""
