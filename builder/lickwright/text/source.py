"""A text file that an author wrote, and a place in it."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field

_NEWLINE = re.compile("\n")


@dataclass(frozen=True, slots=True)
class Source:
    r"""One text file.

    Attributes:
        path: POSIX path relative to the course folder, e.g. ``lessons/bends.md``.
        text: The whole text, newlines as ``\\n``.
    """

    path: str
    text: str
    _starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        starts = (0, *(match.end() for match in _NEWLINE.finditer(self.text)))
        object.__setattr__(self, "_starts", starts)

    def line_column(self, offset: int) -> tuple[int, int]:
        """Return the 1-based line and column (code points) of an offset."""
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1

    @property
    def line_count(self) -> int:
        """Lines, an empty last one counted."""
        return len(self._starts)

    def line_start(self, number: int) -> int:
        """Return the offset at which line ``number`` (1-based) begins."""
        return self._starts[number - 1]

    def line(self, number: int) -> str:
        """Return line ``number`` (1-based) without its newline."""
        start = self._starts[number - 1]
        end = self._starts[number] - 1 if number < len(self._starts) else len(self.text)
        return self.text[start:end]

    def span(self, start: int, end: int) -> Span:
        """Return the half-open range ``[start, end)`` of this text."""
        return Span(self, start, end)


@dataclass(frozen=True, slots=True)
class Span:
    """Half-open range ``[start, end)`` of code points in one source."""

    source: Source = field(repr=False)
    start: int
    end: int

    @property
    def text(self) -> str:
        """The text inside the range."""
        return self.source.text[self.start : self.end]

    @property
    def place(self) -> tuple[int, int]:
        """1-based line and column of the first code point."""
        return self.source.line_column(self.start)

    def to(self, other: Span) -> Span:
        """Return the range from this one's start to the other's end."""
        return Span(self.source, self.start, other.end)
