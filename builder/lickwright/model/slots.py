"""The slots of a bar line: strikes, holds, rests, groups, joins, grace notes, brackets."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from lickwright.model.place import place
from lickwright.model.strike import Strike
from lickwright.text import Span


class JoinKind(Enum):
    """How one sound leads to the next on the same strings; the value is the author's sign."""

    HAMMER = "h"
    PULL = "p"
    SLIDE = "s"
    SHIFT = "s!"


SLIDES = (JoinKind.SLIDE, JoinKind.SHIFT)
"""The finger stays on the string; after the second kind the note is struck again."""


class BracketKind(Enum):
    """What a bracket says of the sounds inside it."""

    RING = "ring"
    MUTE = "mute"
    POSITION = "pos"


@dataclass(frozen=True, slots=True)
class Hold:
    """``-``: lengthens the last sound or rest of the voice."""

    span: Span = place()


@dataclass(frozen=True, slots=True)
class Rest:
    """``.``: one step of silence."""

    span: Span = place()


@dataclass(frozen=True, slots=True)
class Join:
    """``h``, ``p``, ``s`` or ``s!`` between two sounds."""

    kind: JoinKind
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Grace:
    """``g(…)``: grace notes straight before a sound of the same bar."""

    strikes: tuple[Strike, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Opening:
    """``ring[``, ``mute[``, ``pos5[`` or ``open[`` (position 0)."""

    kind: BracketKind
    fret: int | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Closing:
    """``]``."""

    span: Span = place()


@dataclass(frozen=True, slots=True)
class Group:
    """``(a b)/N``: N shares of where it stands, parted evenly among its members."""

    members: tuple[Slot, ...]
    shares: int = 1
    span: Span = place()


Slot = Strike | Hold | Rest | Group | Join | Grace | Opening | Closing
