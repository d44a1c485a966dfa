"""Lines of an author's text as a proof sheet shows them: numbered, the place underlined."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lickwright.findings import Edit
from lickwright.text import Span

MOST_LINES = 6
LONGEST = 160
NEAR = 12
"""Lines between two places that are shown together."""
FENCE = re.compile(r"[ >]*(?:`{3}|~{3})")


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a line, underlined or not."""

    text: str
    marked: bool = False


@dataclass(frozen=True, slots=True)
class TypedLine:
    """A line; number 0 is not printed."""

    number: int
    runs: tuple[Run, ...]


def lines_of(span: Span, beside: Iterable[Span] = ()) -> tuple[TypedLine, ...]:
    """Return the lines that a place covers, at most six, with the place marked.

    Args:
        span: The place.
        beside: Further places whose lines are to be seen with it, marked too; those far off are left out.
    """
    if not span.source.path:
        return ()
    marks = _marks(span)
    for other in beside:
        if is_near(span, other):
            for number, places in _marks(other).items():
                marks.setdefault(number, []).extend(places)
    lines = [TypedLine(number, _cut(span.source.line(number), marks[number])) for number in sorted(marks)]
    return tuple(lines) if any(run.text for line in lines for run in line.runs) else ()


def is_near(span: Span, other: Span) -> bool:
    """Whether a place stands in the same block as another, a dozen lines off at most."""
    if not span.source.path or span.source != other.source:
        return False
    first, last = sorted((span.place[0], other.place[0]))
    between = (span.source.line(number) for number in range(first, last + 1))
    return last - first <= NEAR and not any(FENCE.match(line) for line in between)


def _marks(span: Span) -> dict[int, list[tuple[int, int]]]:
    """The marked part of each line, as columns from 0."""
    first, column = span.place
    last, end_column = span.source.line_column(max(span.start, span.end))
    marks = {}
    for number in range(first, min(last, first + MOST_LINES - 1) + 1):
        length = len(span.source.line(number))
        begin = column - 1 if number == first else 0
        end = end_column - 1 if number == last else length
        marks[number] = [(begin, max(begin, min(end, length)))]
    return marks


def mended_lines(edits: Sequence[Edit]) -> tuple[TypedLine, ...]:
    """Return the line of the first edit as all edits on it leave it, the new text marked."""
    if not edits:
        return ()
    source = edits[0].span.source
    number = source.line_column(edits[0].span.start)[0]
    start = source.line_start(number)
    text = source.line(number)
    runs, at = [], 0
    for edit in sorted(edits, key=lambda edit: edit.span.start):
        begin, end = edit.span.start - start, edit.span.end - start
        if edit.span.source.path == source.path and at <= begin <= end <= len(text):
            runs += [Run(text[at:begin]), Run(edit.text, marked=True)]
            at = end
    runs.append(Run(text[at:]))
    if sum(len(run.text) for run in runs) > LONGEST:
        return ()
    return (TypedLine(number, tuple(run for run in runs if run.text)),)


def _cut(text: str, places: Sequence[tuple[int, int]]) -> tuple[Run, ...]:
    """Mark the places in a line; a very long one is kept within bounds, around the first of them."""
    if len(text) > LONGEST:
        return _shorten(text, *places[0])
    runs, at = [], 0
    for place, end in sorted(places):
        begin = max(at, place)  # two places may overlap
        if begin < end:
            runs += [Run(text[at:begin]), Run(text[begin:end], marked=True)]
            at = end
    return tuple(run for run in (*runs, Run(text[at:])) if run.text)


def _shorten(text: str, begin: int, end: int) -> tuple[Run, ...]:
    left = max(0, begin - LONGEST // 2)
    right = min(len(text), max(end, left) + LONGEST // 2)
    end = min(end, begin + LONGEST)
    right = min(right, end + LONGEST)
    runs = (
        Run(("… " if left else "") + text[left:begin]),
        Run(text[begin:end], marked=True),
        Run(text[end:right] + (" …" if right < len(text) else "")),
    )
    return tuple(run for run in runs if run.text)
