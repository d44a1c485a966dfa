"""Words of the prose without their marks, each letter with its place in the file."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field

from lickwright.text.source import Source, Span


@dataclass(frozen=True, slots=True)
class Passage:
    """A stretch of plain words: Markdown's marks are taken off, a line end is a blank.

    Attributes:
        text: The words.
        source: The file they stand in.
        runs: Where the letters stand, as ``(offset in text, offset in the file)`` of each stretch
            that is the same in both, in order.
    """

    text: str
    source: Source = field(default=Source("", ""), compare=False, repr=False)
    runs: tuple[tuple[int, int], ...] = field(default=(), compare=False, repr=False)

    def span(self, start: int, end: int) -> Span:
        """Return the place of ``text[start:end]``, marks in between included."""
        if not self.runs:
            return self.source.span(0, 0)
        first = self._place(start)
        return self.source.span(first, max(first, self._place(end - 1) + 1 if end > start else first))

    def _place(self, offset: int) -> int:
        begin, place = self.runs[max(bisect_right(self.runs, (offset, len(self.source.text))) - 1, 0)]
        return min(place + offset - begin, len(self.source.text))

    def cut(self, start: int, end: int) -> Passage:
        """Return ``text[start:end]`` as a passage of its own, with its places."""
        inside = [(begin - start, place) for begin, place in self.runs if start < begin < end]
        head = ((0, self._place(start)),) if self.runs else ()
        return Passage(self.text[start:end], self.source, (*head, *inside))
