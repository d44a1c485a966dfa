"""Slots as text."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lickwright.model.slots import BracketKind, Closing, Grace, Group, Hold, Join, Opening, Rest, Slot
from lickwright.model.strike import (
    Bend,
    Dead,
    Fretted,
    Hammered,
    Harmonic,
    Head,
    Late,
    Note,
    Strike,
    Tapped,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from fractions import Fraction

    from lickwright.model.fields import Shape


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of a bar line that stands between blanks.

    Attributes:
        text: As printed.
        sounds: How far into the text each sound in it begins, at most one.
    """

    text: str
    sounds: tuple[int, ...] = ()


def print_slots(slots: Iterable[Slot], shapes: Iterable[Shape] = ()) -> str:
    """Return slots as an author writes them, one blank between them."""
    return " ".join(token.text for token in print_tokens(slots, shapes))


def print_strike(strike: Strike, shapes: Iterable[Shape] = ()) -> str:
    """Return a strike, by the name of its shape where that says the same."""
    shape = next((shape.strike for shape in shapes if shape.name == strike.shape), None)
    if shape is None or shape.notes != strike.notes:
        return _sign(strike, "+".join(map(_print_note, strike.notes)), None)
    return _sign(strike, strike.shape, shape)


def print_number(number: Fraction) -> str:
    """Return a fret or a touch: ``15``, ``15.5``, ``3.2``."""
    return str(number.numerator) if number.denominator == 1 else f"{float(number):.2f}".rstrip("0")


def print_tokens(slots: Iterable[Slot], shapes: Iterable[Shape] = ()) -> list[Token]:
    """Return the pieces of a bar line in order."""
    known = tuple(shapes)
    tokens: list[Token] = []
    for slot in slots:
        tokens.extend(_print_slot(slot, known))
    return tokens


def _print_slot(slot: Slot, shapes: tuple[Shape, ...]) -> Iterator[Token]:
    match slot:
        case Strike():
            yield Token(print_strike(slot, shapes), (0,))
        case Hold():
            yield Token("-")
        case Rest():
            yield Token(".")
        case Join():
            yield Token(slot.kind.value)
        case Grace():
            yield Token(f"g({' '.join(print_strike(strike, shapes) for strike in slot.strikes)})")
        case Opening():
            yield Token(_print_opening(slot))
        case Closing():
            yield Token("]")
        case Group():
            yield from _print_group(slot, shapes)


def _print_opening(opening: Opening) -> str:
    if opening.kind is not BracketKind.POSITION:
        return f"{opening.kind.value}["
    return f"pos{opening.fret}[" if opening.fret else "open["


def _print_group(group: Group, shapes: tuple[Shape, ...]) -> Iterator[Token]:
    tokens = print_tokens(group.members, shapes)
    size = f"/{group.shares}" if group.shares > 1 else ""
    if not tokens:
        yield Token(f"(){size}")
        return
    first = tokens[0]
    tokens[0] = Token(f"({first.text}", tuple(at + 1 for at in first.sounds))
    last = tokens[-1]
    tokens[-1] = Token(f"{last.text}){size}", last.sounds)
    yield from tokens


def _sign(strike: Strike, core: str, shape: Strike | None) -> str:
    """Put the signs of a strike round it, those that its shape already says left out."""
    said = shape if shape is not None else Strike(strike.notes)
    slide_in = strike.slide_in.value if strike.slide_in and strike.slide_in != said.slide_in else ""
    slide_out = strike.slide_out.value if strike.slide_out and strike.slide_out != said.slide_out else ""
    accent = "!" if strike.accent and not said.accent else ""
    short = "'" if strike.short and not said.short else ""
    spread = "^" if strike.spread and not said.spread else ""
    return f"{slide_in}{core}{slide_out}{accent}{short}{spread}"


def _print_note(note: Note) -> str:
    bends = "".join(map(_print_bend, note.bends))
    return f"{note.string}:{_print_head(note.head)}{bends}{'~' if note.vibrato else ''}"


def _print_bend(bend: Bend) -> str:
    return f"{bend.kind.value}{print_number(bend.to)}"


def _print_head(head: Head) -> str:
    match head:
        case Fretted():
            return str(head.fret)
        case Dead():
            return "x"
        case Tapped():
            return f"t{head.fret}"
        case Hammered():
            return f"h{head.fret}"
        case Harmonic():
            return f"{head.fret or ''}<{print_number(head.touch)}>"
        case Late():
            return _print_bend(head.bend)
