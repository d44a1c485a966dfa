"""A ``progression`` block: fields, then cells between bar lines."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix
from lickwright.model.blocks import Progression
from lickwright.reading import sayings, values
from lickwright.reading.agreement import check_tempi
from lickwright.reading.collector import quote
from lickwright.reading.fields import Table, Values, split_field
from lickwright.reading.lines import Body, Line, note_odd_blanks
from lickwright.reading.margins import check_beats, read_margin
from lickwright.reading.repeats import check_repeats
from lickwright.text import Span
from lickwright.theory.meter import Meter

if TYPE_CHECKING:
    from lickwright.model.bar import Margin
    from lickwright.reading.collector import Collector

FIELDS: Table = {
    "title": ("title", values.read_text),
    "key": ("key", values.read_key),
    "meter": ("meter", values.read_meter),
    "feel": ("feel", values.read_feel),
    "tempo": ("tempo", values.read_tempo),
    "stet": ("stets", sayings.read_stet),
}
_TOKEN = re.compile(
    r"(?P<opens>\|:)|(?P<closes>:\|(?:\s*[x×]\s*(?P<times>[0-9]+))?)|(?P<bar>\|)|(?P<text>[^|:]+)|:"
)
_MOST_FAULTS = 60


@dataclass(slots=True)
class _Grid:
    """The cells read so far."""

    found: Collector
    cells: list[Margin] = field(default_factory=list)
    places: list[Span] = field(default_factory=list)
    opens: bool = False
    text: Line | None = None

    def read_line(self, line: Line) -> None:
        """Read one line; a bar line at either end of it opens no cell."""
        before = ""
        faults = len(self.found.findings)
        for m in _TOKEN.finditer(line.text):
            part = line.part(m.start(), m.end())
            kind = "closes" if m["closes"] else "opens" if m["opens"] else "bar" if m["bar"] else "text"
            if m["text"] and part.blank:
                continue
            if m["text"]:
                self.text = part.strip()
            elif kind == "text":
                span = Span(self.found.source, part.start, part.end)
                self.found.add("syntax/margin", "a colon belongs to a repeat sign, |: or :|", span, fix="")
                continue
            elif kind == "closes":
                times = line.part(m.start("times"), m.end("times")) if m["times"] else None
                self._close(part, times, before)
            else:
                if self.text is not None or before in ("bar", "opens"):
                    self._end_cell(part)
                if kind == "opens":
                    self.opens = True
            before = kind
            if len(self.found.findings) - faults > _MOST_FAULTS:
                break
        if self.text is not None:
            self._end_cell(line.part(len(line.text)))

    def _end_cell(self, at: Line, *, closes: bool = False, times: Line | None = None) -> None:
        text = self.text if self.text is not None else Line("", at.start)
        self.found.address = str(len(self.cells) + 1)
        margin = read_margin(text, self.found, opens=self.opens, closes=closes, times=times)
        self.cells.append(margin)
        self.places.append(Span(self.found.source, text.start, max(text.end, text.start)))
        self.text, self.opens = None, False

    def _close(self, at: Line, times: Line | None, before: str) -> None:
        if self.text is not None or self.opens or before == "bar":
            self._end_cell(at, closes=True, times=times)
        elif self.cells and before != "closes" and not self.cells[-1].closes:
            read = read_margin(Line("", at.start), self.found, closes=True, times=times)
            self.cells[-1] = replace(self.cells[-1], closes=True, times=read.times)
        else:
            span = Span(self.found.source, at.start, at.end)
            self.found.add("syntax/repeat", ":| closes no cell", span, fix="")


def read_progression(body: Body, found: Collector) -> Progression:
    """Read a progression block as far as it can be read."""
    read = Values()
    grid = _Grid(found)
    apart = True
    late = False
    for line in body.lines:
        if line.blank:
            apart = True
            continue
        if line.text.lstrip().startswith(";"):
            continue
        item = split_field(line)
        if item is not None:
            name = Span(found.source, item.name.start, item.name.end)
            if grid.cells and not late:
                late = True
                message = f"the field {quote(item.name.text)} stands after the first cell"
                found.add("syntax/field-place", message, name, hint="fields come first, then an empty line")
            apart = bool(grid.cells)
            read.take(item, FIELDS, "progression", found)
            continue
        if not apart:
            start = Span(found.source, line.start, line.start)
            message = "the cells begin straight after the fields, with no empty line between"
            fix = Fix("put an empty line before it", (Edit(start, "\n"),))
            found.add("syntax/missing-blank-line", message, start, fix=fix)
            apart = True
        note_odd_blanks(line.uncommented(), found)
        grid.read_line(line.uncommented())
    return _finish(body, read, grid, found)


def _finish(body: Body, read: Values, grid: _Grid, found: Collector) -> Progression:
    opening = Span(found.source, body.opening.start, body.opening.end)
    if not grid.cells:
        hint = "write its chords between bar lines: A | A | D7 | A"
        found.add("syntax/block-empty", "the progression has no cell", opening, hint=hint)
    meter: Meter = read.by_name.get("meter") or Meter(4, 4)
    check_tempi(read.by_name, meter, read, found)
    for number, margin in enumerate(grid.cells, 1):
        found.address = str(number)
        meter = margin.meter or meter
        check_beats(margin.chords, meter, found)
    found.address = ""
    check_repeats(zip(grid.cells, grid.places, strict=True), found)
    return Progression(
        found.block, tuple(grid.cells), span=opening, places=read.place_tuple(), **read.by_name
    )
