"""A lick as text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.model.slots import Rest
from lickwright.reading.printing import fields
from lickwright.reading.printing.bars import print_bars
from lickwright.reading.printing.slots import print_strike

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.blocks import Lick


def print_lick(lick: Lick) -> str:
    """Return the inside of a lick's block: fields, an empty line, bars."""
    lines = [*_print_fields(lick), *_print_changes(lick)]
    parts = ["\n".join(lines)] if lines else []
    if lick.bars:
        parts.append(print_bars(lick.bars, lick.shapes))
    return "\n\n".join(parts)


def _print_fields(lick: Lick) -> Iterator[str]:
    values = {
        "title": lick.title,
        "vary": lick.vary,
        "key": fields.say(lick.key, str),
        "meter": fields.say(lick.meter, str),
        "step": fields.say(lick.step, fields.print_length),
        "tempo": fields.say(lick.tempo, fields.print_tempo),
        "slow": fields.say(lick.slow, fields.print_tempo),
        "ladder": fields.print_ladder(lick.ladder),
        "feel": lick.feel,
        "over": fields.say(lick.over, fields.print_over),
        "position": fields.print_position(lick.position),
        "picking": fields.say(lick.picking, fields.print_picking),
        "claims": fields.print_claims(lick.claims),
        "pickup": fields.say(lick.pickup, fields.print_length),
        "tuning": fields.say(lick.tuning, str),
        "capo": fields.say(lick.capo, str),
        "ending": lick.ending,
        "source": fields.say(lick.source, fields.print_source),
        "take": fields.say(lick.take, fields.print_take),
        "tags": ", ".join(lick.tags),
    }
    for name, value in values.items():
        if value:
            yield fields.print_field(name, value)
    for shape in lick.shapes:
        yield fields.print_field(f"shape {shape.name}", print_strike(shape.strike))
    for stet in lick.stets:
        yield fields.print_field("stet", fields.print_stet(stet))


def _print_changes(lick: Lick) -> Iterator[str]:
    for change in lick.changes:
        to = "." if isinstance(change.to, Rest) else print_strike(change.to, lick.shapes)
        yield fields.print_field(str(change.address), to)
