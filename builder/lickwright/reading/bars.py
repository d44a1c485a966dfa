"""One bar line taken apart: margin, slots and repeat signs, at their places."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix
from lickwright.reading.lines import Line
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.collector import Collector

CLOSING = re.compile(r":\|\s*(?:[x×]\s*([0-9]+))?\s*\Z")
_MUSIC = re.compile(r"\s*(?:[0-9(./\\-]|g\(|(?:ring|mute|open|pos[0-9]+)\s*\[)")


@dataclass(frozen=True, slots=True)
class BarLine:
    """A bar line in pieces.

    Attributes:
        margin: What stands before the ``|``, without repeat signs.
        slots: What stands after it.
        opens: ``|:``.
        closes: ``:|``.
        times: The number after ``x``.
        surplus: What stands after a second ``|``.
    """

    margin: Line
    slots: Line
    opens: bool = False
    closes: bool = False
    times: Line | None = None
    surplus: Line | None = None


def split_bar(line: Line, found: Collector) -> BarLine | None:
    """Take a bar line apart; None when it is no bar, which has been reported."""
    text = line.text
    end = len(text)
    closes, times = False, None
    ending = _find_closing(text)
    if ending is not None:
        closes, end = True, ending.start()
        if ending[1] is not None:
            times = line.part(ending.start(1), ending.end(1))
    head = text.find("|", 0, end)
    if head < 0:
        return _read_barless(line, end, closes, times, found)
    start = head + 1
    opens = text[start : start + 1] == ":"
    if opens:
        start += 1
        second = text.find("|", start, end)
        if not text[:head].strip() and second >= 0 and ":" not in text[start:second]:
            # |: A7 | slots
            margin = line.part(start, second)
            start = second + 1
            return _finish(line, margin, start, end, closes, times, found, opens=True)
    return _finish(line, line.part(0, head), start, end, closes, times, found, opens=opens)


def _find_closing(text: str) -> re.Match[str] | None:
    at = text.rfind(":|")
    return CLOSING.match(text, at) if at >= 0 else None


def _finish(
    line: Line,
    margin: Line,
    start: int,
    end: int,
    closes: bool,
    times: Line | None,
    found: Collector,
    *,
    opens: bool,
) -> BarLine:
    second = line.text.find("|", start, end)
    surplus = None
    if second >= 0:
        at = line.start + second
        rest = line.text[second + 1 : end].strip()
        fix = None
        if rest and "|" not in rest and ":" not in line.text[second - 1 : second + 2]:
            fix = Fix("put it on a line of its own", (Edit(Span(found.source, at, at + 1), "\n|"),))
        elif not rest:
            fix = Fix("leave it out", (Edit(Span(found.source, at, at + 1), ""),))
        message = "a second | in the line" if rest else "a | at the end of the bar"
        hint = "one bar a line, its chord before the |" if rest else "the end of the line ends the bar"
        found.add("syntax/second-bar", message, Span(found.source, at, at + 1), hint=hint, fix=fix)
        surplus = line.part(second + 1, end)
        end = second
    return BarLine(margin, line.part(start, end), opens, closes, times, surplus)


def _read_barless(line: Line, end: int, closes: bool, times: Line | None, found: Collector) -> BarLine | None:
    whole = line.strip()
    span = Span(found.source, whole.start, whole.end)
    if _MUSIC.match(line.text):
        start = Span(found.source, whole.start, whole.start)
        hint = "a bar is its chord, |, and its slots; without a chord it begins with |"
        fix = Fix("put | before it", (Edit(start, "| "),))
        found.add("syntax/bar-line", "a bar with no | before its slots", span, hint=hint, fix=fix)
        return BarLine(line.part(0, 0), line.part(0, end), closes=closes, times=times)
    hint = "a field is its name and a colon; a bar has its chord before a | and its slots after it"
    found.add("syntax/bar-line", "this line is neither a field nor a bar", span, hint=hint)
    return None
