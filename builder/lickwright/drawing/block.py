"""The picture that a ``neck`` block asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.drawing.neck import draw_neck
from lickwright.drawing.played import LEGEND, played_dots
from lickwright.drawing.tones import chord_tones, named_tones, scale_tones, tone_dots
from lickwright.drawing.window import window_around, window_of
from lickwright.theory.chord import Chord, parse_chord
from lickwright.theory.pitch import PitchClass
from lickwright.theory.scale import parse_scale

if TYPE_CHECKING:
    from lickwright.drawing.picture import Picture
    from lickwright.drawing.tones import Tones
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.address import AddressRange
    from lickwright.model.blocks import NeckBlock
    from lickwright.model.music import Piece
    from lickwright.theory.key import Key


def block_picture(block: NeckBlock, guitar: Guitar, key: Key, piece: Piece | None = None) -> Picture | None:
    """Draw what a block asks for.

    Args:
        block: As read.
        guitar: The course's; a lick is shown on its own.
        key: The course's, for the degrees of notes that are named.
        piece: The lick that the block names.

    Returns:
        The picture, or None where the block could not be read or its lick is not there.
    """
    if block.show is None:
        return None if piece is None else _played(block, piece)
    labels = block.labels or ("names" if block.show[0] == "notes" else "degrees")
    tones = _tones(*block.show, key if labels == "degrees" else None)
    if tones is None:
        return None
    window = window_of(guitar, block.frets, block.strings)
    dots = tone_dots(tones, guitar, window, labels)
    return draw_neck(dots, guitar, window, f"{tones.title} on the neck", tones.legend)


def _tones(kind: str, what: str, key: Key | None) -> Tones | None:
    if kind == "chord":
        chord = parse_chord(what)
        return chord_tones(chord) if isinstance(chord, Chord) else None
    if kind == "scale":
        scale = parse_scale(what)
        return None if scale is None else scale_tones(scale)
    names = [name for name in map(PitchClass.parse, what.split()) if name is not None]
    return named_tones(names, key) if names else None


def _played(block: NeckBlock, piece: Piece) -> Picture:
    guitar = piece.music.guitar
    dots = played_dots(piece.music, block.bars)
    window = window_around(guitar, [dot.fret for dot in dots])
    title = piece.title if block.bars is None else f"{piece.title}, {_bars(block.bars)}"
    return draw_neck(dots, guitar, window, f"{title} on the neck", LEGEND)


def _bars(bars: AddressRange) -> str:
    first, last = bars.first.bar, bars.last.bar
    if first == last:
        return f"bar {first}" if first else "the pickup"
    return f"bars {first} to {last}" if first else f"the pickup to bar {last}"
