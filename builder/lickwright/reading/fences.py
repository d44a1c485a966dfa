"""The fenced blocks of a lesson: where they open, what stands inside, whether they close."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.reading.blocks import KINDS
from lickwright.reading.lines import Line
from lickwright.text import Span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from markdown_it.token import Token

    from lickwright.reading.collector import Collector
    from lickwright.text import Source

_OPENING = re.compile(r"[ \t]{0,3}(`{3,}|~{3,})[ \t]*([^\s`]*)")
_HEADING = re.compile(r" {0,3}#{1,6}\s")
_ITEM = re.compile(r"(?:[-*+]|[0-9]{1,3}[.)])\s+[^\W\d_]{2}|>|!?\[")
_ORDINARY = re.compile(r"[^\W\d_][^|]*\Z|[#>*+]")


@dataclass(frozen=True, slots=True)
class Fence:
    """A fence as found.

    Attributes:
        opening: Its first line from the first back-tick or tilde.
        info: The words after them.
        lines: What stands inside, each at its place.
        number: 0-based line of the file at which it opens.
    """

    opening: Line
    info: Line
    lines: tuple[Line, ...]
    number: int


def find_fences(tokens: list[Token], source: Source, found: Collector) -> Iterator[Fence]:
    """Yield the fences of a lesson in order, reporting those never closed."""
    for token in tokens:
        if token.type != "fence" or token.map is None:
            continue
        first, last = token.map
        content = token.content.split("\n")
        if content and not content[-1]:
            content.pop()
        opening = _find_opening(source, first, token)
        info = opening.part(len(token.markup)).strip()
        lines = tuple(_place(source, first + 2 + at, text) for at, text in enumerate(content))
        closed = last - first - 1 > len(content)
        yield from _part(Fence(opening, info, lines, first), found, closed=closed)


def _find_opening(source: Source, number: int, token: Token) -> Line:
    text = source.line(number + 1)
    at = max(text.find(token.markup), 0)
    return Line(text[at:].rstrip(), source.line_start(number + 1) + at)


def _place(source: Source, number: int, text: str) -> Line:
    """Place a line of a fence: its indent and the marks of lists and quotes were taken off."""
    whole = source.line(number)
    indent = len(whole) - len(text)
    if indent < 0:  # part of a tab was counted as blanks
        text, indent = text[-indent:], 0
    return Line(text, source.line_start(number) + indent)


def _part(fence: Fence, found: Collector, *, closed: bool) -> Iterator[Fence]:
    """Yield the fence, or those that it swallowed because it was not closed before them."""
    kind = fence.info.text.split(" ", 1)[0]
    swallowed = kind in KINDS and any(_HEADING.match(line.text) for line in fence.lines)
    inner = next(
        (at for at, line in enumerate(fence.lines) if kind in KINDS and _opens_block(line.text)), None
    )
    if inner is None and closed and not swallowed:
        yield fence
        return
    span = Span(found.source, fence.opening.start, fence.opening.end)
    mark = re.match(r"`+|~+", fence.opening.text)
    hint = f"put {mark[0] if mark else '```'} on a line of its own after the block"
    if inner is None:
        found.add("syntax/block-open", "this fence is never closed", span, hint=hint)
        lines = _guess_end(fence.lines) if kind in KINDS else fence.lines
        yield Fence(fence.opening, fence.info, lines, fence.number)
        return
    line = fence.lines[inner]
    found.add("syntax/block-open", "this fence is not closed before the next one opens", span, hint=hint)
    yield Fence(fence.opening, fence.info, _guess_end(fence.lines[:inner]), fence.number)
    opening = _OPENING.match(line.text)
    at = opening.start(1) if opening else 0
    start = line.part(at)
    size = len(opening[1]) if opening else 0
    rest = Fence(start, start.part(size).strip(), fence.lines[inner + 1 :], fence.number + 1 + inner)
    yield from _part(rest, found, closed=closed)


def _opens_block(text: str) -> bool:
    opening = _OPENING.match(text)
    return opening is not None and opening[2] in KINDS


def _guess_end(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return the lines that are music, to the first that is prose: no other is judged."""
    begun = False
    for at, line in enumerate(lines):
        text = line.text.lstrip()
        if _HEADING.match(text) or _ITEM.match(text):
            return lines[:at]
        after_blank = at > 0 and lines[at - 1].blank
        if "|" not in text and _ORDINARY.match(text) and (":" not in text or (begun and after_blank)):
            return lines[:at]
        begun = begun or "|" in text
    return lines
