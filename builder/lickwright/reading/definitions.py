"""What a lick's fields define for its slots: shapes, and the changes of a variation."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.findings import Label
from lickwright.model.address import Address
from lickwright.model.fields import Change, Shape
from lickwright.model.slots import Rest
from lickwright.reading.collector import quote
from lickwright.reading.strikes import Hand, read_strike
from lickwright.text import Span

if TYPE_CHECKING:
    from lickwright.reading.fields import Field

_SHAPE_NAME = re.compile(r"[A-Za-z][A-Za-z0-9#♯♭-]*")
_NO_SHAPES = frozenset({"h", "p", "s", "r", "g", "ring", "mute", "open"})


def read_shape(item: Field, hand: Hand) -> None:
    """Read ``shape G: 6:3+5:2+4:0`` into the shapes of the hand."""
    found = hand.found
    span = Span(found.source, item.name.start, item.name.end)
    name = item.name.text[5:].strip()
    place = Span(found.source, item.value.start, item.value.end)
    if not _SHAPE_NAME.fullmatch(name) or name in _NO_SHAPES:
        hint = "a shape's name is letters, digits and hyphens, as in shape G: 6:3+5:2+4:0"
        found.add("syntax/field-value", f"{quote(name)} cannot name a shape", span, hint=hint)
        return
    if name in hand.shapes:
        found.add("syntax/field-twice", f"the shape {name} is given twice", span)
        return
    plain = Hand(found, hand.strings, tuning=hand.tuning)
    strike = read_strike(item.value.text, item.value.start, plain) if item.value.text else None
    if strike is not None:
        hand.shapes[name] = Shape(name, strike, span.to(place))
    elif not item.value.text:
        found.add("syntax/field-value", f"the shape {name} has no notes", span)


def read_change(item: Field, changes: dict[Address, Change], hand: Hand) -> None:
    """Read ``1.2: 5:3`` into the changes of a variation."""
    found = hand.found
    span = Span(found.source, item.name.start, item.name.end)
    address = Address.parse(item.key)
    if address is None or address.sound == 0:
        found.add(
            "syntax/change",
            f"{quote(item.name.text)} is no address of a sound",
            span,
            hint="sounds count from 1",
        )
        return
    if address in changes:
        label = (Label(changes[address].span, "first changed here"),)
        found.add("syntax/field-twice", f"the sound {address} is changed twice", span, labels=label)
        return
    place = Span(found.source, item.value.start, item.value.end)
    words = item.value.text.split()
    if len(words) != 1 or words[0] in ("-", "h", "p", "s", "s!"):
        hint = "a change is one sound in the place of another, 1.2: 5:3, or a rest, 1.2: ."
        found.add(
            "syntax/change",
            f"{quote(item.value.text) or 'nothing'} cannot take the place of a sound",
            place if words else span,
            hint=hint,
        )
        return
    to = Rest(place) if words[0] == "." else read_strike(words[0], item.value.start, hand)
    if to is not None:
        changes[address] = Change(address, to, span.to(place))
