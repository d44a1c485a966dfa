"""A voice of a bar as a row of notes, each with its tuplets and beams."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.analysis.notation.beaming import windows
from lickwright.analysis.notation.pieces import Bracketed, printed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.analysis.notation.pieces import Layer, Part, Piece

FLAGS = {"8": 1, "16": 2, "32": 3, "64": 4, "128": 5, "256": 6}
"""Flags of a printed value; longer ones have none."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A tuplet that begins or ends at a note: its depth, from 1, and ``number`` in the time of ``normal``."""

    begins: bool
    depth: int
    number: int
    normal: int


@dataclass(frozen=True, slots=True)
class Written:
    """A piece where it stands.

    Attributes:
        actual, normal: Its tuplets, multiplied; 1 and 1 outside of any.
        tuplet: Which tuplets it stands in, from the outermost; two side by side differ.
        turns: Tuplets that begin or end here.
        beams: Of each level from 1: ``begin``, ``continue``, ``end``, ``forward hook``, ``backward hook``.
    """

    piece: Piece
    actual: int = 1
    normal: int = 1
    tuplet: tuple[int, ...] = ()
    turns: tuple[Turn, ...] = ()
    beams: tuple[str, ...] = ()

    @property
    def duration(self) -> Fraction:
        """Quarters that it lasts."""
        return self.piece.length * self.normal / self.actual


def flow(layer: Layer) -> tuple[Written, ...]:
    """Return a voice's notes and rests in order."""
    made = tuple(_tupled(layer.parts, 1, 1, ()))
    window = windows(layer)
    beams: dict[int, tuple[str, ...]] = {}
    for _, run in groupby(enumerate(made), lambda at: _beamed(at[0], at[1], window)):
        members = list(run)
        if len(members) > 1:
            flags = [FLAGS[printed(written.piece.length)[0]] for _, written in members]
            beams |= {place: _levels(flags, k) for k, (place, _) in enumerate(members)}
    return tuple(replace(written, beams=beams.get(k, ())) for k, written in enumerate(made))


def _beamed(place: int, written: Written, window: Callable[[Fraction], Fraction]) -> object:
    """The group a note is beamed in; one without flags stands for itself."""
    piece = written.piece
    if piece.sound is None or piece.whole_bar or printed(piece.length)[0] not in FLAGS:
        return (place,)
    return (written.tuplet, None if written.tuplet else window(piece.onset))


def _levels(flags: list[int], k: int) -> tuple[str, ...]:
    found = []
    for level in range(1, flags[k] + 1):
        before = k > 0 and flags[k - 1] >= level
        after = k + 1 < len(flags) and flags[k + 1] >= level
        if before and after:
            found.append("continue")
        elif before or after:
            found.append("end" if before else "begin")
        else:
            found.append("backward hook" if k else "forward hook")
    return tuple(found)


def _tupled(parts: tuple[Part, ...], actual: int, normal: int, within: tuple[int, ...]) -> Iterator[Written]:
    for place, part in enumerate(parts):
        if not isinstance(part, Bracketed):
            yield Written(part, actual, normal, within)
            continue
        inside = (*within, place)
        inner = list(_tupled(part.members, actual * part.number, normal * part.normal, inside))
        first, last = (Turn(begins, len(inside), part.number, part.normal) for begins in (True, False))
        inner[0] = replace(inner[0], turns=(first, *inner[0].turns))
        inner[-1] = replace(inner[-1], turns=(*inner[-1].turns, last))
        yield from inner
