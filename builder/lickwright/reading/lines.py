"""The lines of a fenced block, each at its place in the file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.findings import Edit, Fix

if TYPE_CHECKING:
    from lickwright.instrument.tuning import Tuning
    from lickwright.model.fields import Shape
    from lickwright.reading.collector import Collector

MOST_FRETS = 36
"""Frets of the longest neck."""
_COMMENT = re.compile(r"(?:^|(?<=\s))\s*;")
_ODD_BLANK = re.compile(r"[^\S \t]")


@dataclass(frozen=True, slots=True)
class Line:
    """A piece of one line of the file.

    Attributes:
        text: What stands there.
        start: Offset of its first character in the file.
    """

    text: str
    start: int

    @property
    def end(self) -> int:
        """Offset after its last character."""
        return self.start + len(self.text)

    @property
    def blank(self) -> bool:
        """True when nothing but blanks stands there."""
        return not self.text or self.text.isspace()

    def part(self, first: int, last: int | None = None) -> Line:
        """Return the piece from ``first`` to ``last``, counted in this one."""
        return Line(self.text[first:last], self.start + first)

    def split(self, sign: str) -> list[Line]:
        """Return the pieces between the signs."""
        pieces: list[Line] = []
        at = 0
        for text in self.text.split(sign):
            pieces.append(Line(text, self.start + at))
            at += len(text) + len(sign)
        return pieces

    def strip(self) -> Line:
        """Return it without the blanks at both ends."""
        text = self.text.rstrip()
        short = text.lstrip()
        return Line(short, self.start + len(text) - len(short))

    def uncommented(self) -> Line:
        """Return it without a comment: ``;`` first, or after a blank."""
        if ";" not in self.text:
            return self
        found = _COMMENT.search(self.text)
        return Line(self.text[: found.start()], self.start) if found else self


@dataclass(frozen=True, slots=True)
class Body:
    """A block: its fence and what stands inside.

    Attributes:
        opening: The line of the fence that opens it, from the first back-tick or tilde.
        name: The name after the block kind, or empty.
        lines: The lines inside.
        strings: How many strings the guitar has, unless the block says otherwise.
        shapes: Chords with a name that a variation has from its base.
        tuning: The open strings, where they are known.
        frets: The last fret of the neck, counted from the capo.
    """

    opening: Line
    name: str
    lines: tuple[Line, ...]
    strings: int
    shapes: tuple[Shape, ...] = ()
    tuning: Tuning | None = None
    frets: int = MOST_FRETS


def note_odd_blanks(line: Line, found: Collector) -> None:
    """Report no-break spaces and their like, which count as blanks, once for a line."""
    if line.text.isascii():
        return
    edits = tuple(
        Edit(found.span(line.start + m.start(), line.start + m.end()), " ")
        for m in _ODD_BLANK.finditer(line.text)
    )
    if edits:
        found.add(
            "syntax/no-break-space",
            "a no-break space stands here where a plain blank is meant",
            edits[0].span,
            hint="it is read as a blank; a plain one is easier to find and to mend",
            fix=Fix("put plain blanks", edits),
        )
