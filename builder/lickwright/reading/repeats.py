"""Repeat signs and endings: whether those of a lick or a progression fit together."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.model.bar import Margin
    from lickwright.reading.collector import Collector
    from lickwright.text import Span

_RULE = "syntax/repeat"


@dataclass(slots=True)
class _Repeat:
    """A repeat being walked through."""

    opening: Span | None = None
    endings: list[int] = field(default_factory=list)
    in_ending: Span | None = None
    closed: int = 0

    @property
    def under_way(self) -> bool:
        return self.opening is not None or bool(self.endings)


def check_repeats(bars: Iterable[tuple[Margin, Span]], found: Collector) -> None:
    """Report signs that do not fit.

    Args:
        bars: Each margin and the place of its bar or cell, in the order written.
        found: Where faults go.
    """
    now = _Repeat()
    first = True  # whether a :| could still mean the beginning
    last: Span | None = None
    for margin, span in bars:
        last = span
        if margin.opens:
            if now.opening is not None and not now.closed:
                hint = "close the first with :| before the next begins"
                found.add(_RULE, "|: inside a repeat: repeats do not nest", span, hint=hint)
            elif now.in_ending is not None and not now.closed:
                found.add(_RULE, "|: before the first ending is closed with :|", span)
            now, first = _Repeat(opening=span), False
        if margin.endings:
            if not now.under_way and not first:
                found.add(_RULE, "an ending outside a repeat", span, hint="write |: where the repeat begins")
            _begin_ending(now, margin, span, found)
        if margin.closes:
            if margin.times is not None and now.endings:
                hint = "leave out x: the numbers of the endings say how often"
                found.add(_RULE, "x with endings", span, hint=hint)
            over = now.endings and now.in_ending is None
            if over or (not now.under_way and not first):
                hint = "write |: at the bar where it begins"
                found.add(_RULE, ":| closes a repeat that was not opened", span, hint=hint)
            now.closed += 1
            now.in_ending = None
            first = False
            if not now.endings:
                now = _Repeat(closed=1)
    if last is not None and now.opening is not None and not now.closed:
        hint = "put :| at the end of the last bar of the repeat"
        found.add(_RULE, "|: is never closed", now.opening, hint=hint)
    elif now.in_ending is not None and not now.closed:
        found.add(_RULE, "the first ending is never closed", now.in_ending, hint="end its last bar with :|")


def _begin_ending(now: _Repeat, margin: Margin, span: Span, found: Collector) -> None:
    wanted = now.endings[-1] + 1 if now.endings else 1
    if margin.endings[0] != wanted:
        message = f"ending {margin.endings[0]}. where {wanted}. was expected"
        found.add(_RULE, message, span, hint="endings are numbered from 1., each time once")
    if now.in_ending is not None:
        found.add(_RULE, f"ending {margin.endings[0]}. before the one before it is closed with :|", span)
        now.closed += 1  # the sign that is missing here has been told
    now.endings += margin.endings
    now.in_ending = span
