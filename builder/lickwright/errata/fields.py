"""What a lick says of itself as a whole, compared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lickwright.errata.errata import FieldChange, Kind
from lickwright.instrument.guitar import Guitar
from lickwright.model.fields import Picking, PositionClaim, Provenance, Tempo
from lickwright.model.music import Piece
from lickwright.model.timeline.tempi import reduced
from lickwright.terms.lengths import LENGTHS


def compare_fields(old: Piece, new: Piece) -> Iterator[FieldChange]:
    """Yield the fields that differ, in the order of the table."""
    for (kind, field, before), (_, _, after) in zip(_fields(old), _fields(new), strict=True):
        named = field == "title" and _titled_by_name(old) and _titled_by_name(new)
        if before != after and not named:
            yield FieldChange(kind, field, before, after)


def _titled_by_name(piece: Piece) -> bool:
    return piece.title.casefold() == piece.name.replace("-", " ")


def _fields(piece: Piece) -> list[tuple[Kind, str, str]]:
    music = piece.music
    guitar = music.guitar
    ladder = " ".join(map(say_tempo, piece.ladder))
    slow = "" if piece.slow == reduced(piece.tempo) else say_tempo(piece.slow)  # else it follows the tempo
    order = say_order(music.bars[index].number for index in music.order)
    return [
        (Kind.DRAWING, "title", piece.title),
        (Kind.MUSIC, "key", music.key.display),
        (Kind.MUSIC, "tuning", say_tuning(guitar)),
        (Kind.MUSIC, "capo", str(guitar.capo)),
        (Kind.MUSIC, "tempo", say_tempo(piece.tempo)),
        (Kind.MUSIC, "slow", slow),
        (Kind.MUSIC, "ladder", ladder),
        (Kind.MUSIC, "feel", piece.feel),
        (Kind.MUSIC, "over", piece.over),
        (Kind.MUSIC, "licks", ", ".join(section.lick for section in piece.sections)),
        (Kind.MUSIC, "bars as played", order),
        (Kind.HANDS, "position", ", ".join(map(_position, piece.positions))),
        (Kind.HANDS, "picking", _picking(music.picking)),
        (Kind.HANDS, "claims", ", ".join(f"{c.kind}{f' {c.bars}' if c.bars else ''}" for c in piece.claims)),
        (Kind.DRAWING, "ending", "closed" if piece.closed else "open"),
        (Kind.DRAWING, "source", say_source(piece.source)),
    ]


def say_tempo(tempo: Tempo) -> str:
    """Return ``quarter = 96``; a bare number when its beat is not said."""
    if tempo.beat is None:
        return str(tempo.bpm)
    return f"{LENGTHS.get(tempo.beat, f'{tempo.beat} quarters')} = {tempo.bpm}"


def say_tuning(guitar: Guitar) -> str:
    """Return the open strings, the lowest first."""
    return " ".join(pitch.display for pitch in reversed(guitar.tuning.strings))


def say_order(numbers: Iterable[int]) -> str:
    """Return the numbers of bars in the order of playing."""
    return " ".join(map(str, numbers))


def say_source(source: Provenance) -> str:
    """Return whose music it is."""
    return f"{source.kind} {source.detail}".strip()


def _position(claim: PositionClaim) -> str:
    bars = claim.bars
    where = f" (bar{'s' if bars.first != bars.last else ''} {bars})" if bars else ""
    return f"{claim.fret or 'open'}{where}"


def _picking(picking: Picking) -> str:
    return f"{picking.style}{f', {picking.first} first' if picking.first else ''}"
