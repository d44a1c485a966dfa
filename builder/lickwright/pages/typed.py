"""Lines of an author's text as a proof sheet shows them: numbered, the place underlined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lickwright.findings import Edit
from lickwright.text import Span

MOST_LINES = 6
LONGEST = 160


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


def lines_of(span: Span) -> tuple[TypedLine, ...]:
    """Return the lines that a place covers, at most six, with the place marked."""
    source = span.source
    if not source.path:
        return ()
    first, column = source.line_column(span.start)
    last, end_column = source.line_column(max(span.start, span.end))
    lines = []
    for number in range(first, min(last, first + MOST_LINES - 1) + 1):
        text = source.line(number)
        begin = column - 1 if number == first else 0
        end = end_column - 1 if number == last else len(text)
        lines.append(TypedLine(number, _cut(text, begin, max(begin, min(end, len(text))))))
    return tuple(lines) if any(run.text for line in lines for run in line.runs) else ()


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


def _cut(text: str, begin: int, end: int) -> tuple[Run, ...]:
    """Keep a very long line within bounds, around the marked place."""
    left = max(0, begin - LONGEST // 2) if len(text) > LONGEST else 0
    right = min(len(text), max(end, left) + LONGEST // 2) if len(text) > LONGEST else len(text)
    end = min(end, begin + LONGEST)
    right = min(right, end + LONGEST)
    runs = (
        Run(("… " if left else "") + text[left:begin]),
        Run(text[begin:end], marked=True),
        Run(text[end:right] + (" …" if right < len(text) else "")),
    )
    return tuple(run for run in runs if run.text)
