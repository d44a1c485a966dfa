"""A bar line as written: its margin, its one or two voices, their rows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from lickwright.model.place import place
from lickwright.model.slots import Slot
from lickwright.text import Span
from lickwright.theory.chord import ChordSymbol
from lickwright.theory.meter import Meter

RowKind = Literal["rh", "lh", "names", "degrees", "signs"]
ROW_KINDS: tuple[RowKind, ...] = ("rh", "lh", "names", "degrees", "signs")


@dataclass(frozen=True, slots=True)
class Entry:
    """What a row says of one sound.

    Attributes:
        values: One a note in the order written, or one for the whole sound (a
            strum, a sign); None is ``*``, not said. ``signs`` holds one value a sign.
    """

    values: tuple[str | None, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Row:
    """A row under a bar: one entry a sound, in order."""

    kind: RowKind
    entries: tuple[Entry, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Voice:
    """One voice of one bar."""

    slots: tuple[Slot, ...]
    rows: tuple[Row, ...] = ()
    span: Span = place()

    def row(self, kind: RowKind) -> Row | None:
        """Return the row of that kind, if the bar has one."""
        return next((row for row in self.rows if row.kind == kind), None)


@dataclass(frozen=True, slots=True)
class MarginChord:
    """A chord in the margin.

    Attributes:
        symbol: A chord, or no chord.
        beat: The beat it stands on as written after ``@``, from 1; None = shared out evenly.
        half: ``@4&``: half a beat later, a push.
        stop: ``A7'``: struck once, then silence to the next chord.
    """

    symbol: ChordSymbol
    beat: int | None = None
    half: bool = False
    stop: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Margin:
    """What stands before the bar's ``|``, and the repeat signs of the bar.

    Attributes:
        meter: A meter that holds from this bar on.
        opens: ``|:``.
        endings: The times this bar's ending is for, e.g. (1, 2); empty = no ending begins here.
        chords: Empty = the last chord goes on.
        closes: ``:|``.
        times: ``x3``: how often in all; None = not said.
    """

    chords: tuple[MarginChord, ...] = ()
    meter: Meter | None = None
    opens: bool = False
    endings: tuple[int, ...] = ()
    closes: bool = False
    times: int | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Bar:
    """One line of music."""

    margin: Margin
    upper: Voice
    lower: Voice | None = None
    span: Span = place()
