"""What a ``neck`` block asks for and the neck does not have."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from lickwright.instrument.position import ABOVE, BELOW
from lickwright.model.timeline.faults import Faults
from lickwright.theory.chord import Chord, parse_chord
from lickwright.theory.pitch import PitchClass
from lickwright.theory.scale import parse_scale

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lickwright.findings import Finding
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.blocks import NeckBlock
    from lickwright.model.music import Piece
    from lickwright.model.timeline.wording import Names
    from lickwright.text import Span

_FRETS = ABOVE + BELOW


def check_neck(block: NeckBlock, pieces: Mapping[str, Piece], guitar: Guitar, names: Names) -> list[Finding]:
    """Return what keeps a picture from being drawn as it is asked for.

    Args:
        block: As read.
        pieces: Licks by name.
        guitar: The course's.
        names: Of the course.
    """
    faults = Faults(block.of)
    if block.of:
        _check_lick(block, pieces, faults, names)
    elif block.show is not None:
        _check_show(block, guitar, faults)
    return list(faults)


def _check_lick(block: NeckBlock, pieces: Mapping[str, Piece], faults: Faults, names: Names) -> None:
    piece = pieces.get(block.of)
    if piece is None:
        message, hint = names.missing(block.of, "lick")
        faults.add("course/unknown-lick", message, _place(block, "of"), help=hint)
    elif block.bars is not None:
        numbers = [bar.number for bar in piece.music.bars]
        if block.bars.first.bar not in numbers or block.bars.last.bar not in numbers:
            message = f"“{block.of}” has no bars {block.bars}"
            faults.add("course/field-bars", message, _place(block, "bars"))


def _check_show(block: NeckBlock, guitar: Guitar, faults: Faults) -> None:
    """The first thing that is wrong: the rest may follow from it."""
    place = _place(block, "show")
    end = guitar.highest_fret
    notes = _semitones(*block.show) if block.show else frozenset()
    low, high = block.frets or (0, end)
    first, last = block.strings or (1, guitar.strings)
    if high > end:
        above = f" above the capo at {guitar.capo}" if guitar.capo else ""
        message = f"fret {high} is off the neck: the highest{above} is {end}"
        faults.add("syntax/field-value", message, place)
    elif not notes:
        faults.add(
            "syntax/field-value", "N.C. has no chord tones", place, help="Show a chord, as A7 chord tones"
        )
    elif block.labels == "fingers" and (block.frets is None or high - max(low, 1) >= _FRETS):
        message = f"fingers are those of one position: at most {_FRETS} frets were expected"
        faults.add("syntax/field-value", message, place, help="Add its frets, as frets 5-8")
    elif not any(
        guitar.midi(string, fret) % 12 in notes
        for string, fret in product(range(first, last + 1), range(low, high + 1))
    ):
        message = "none of these notes lies on those frets and strings"
        faults.add("syntax/field-value", message, place, help="Show more frets or strings")


def _semitones(kind: str, what: str) -> frozenset[int]:
    if kind == "chord":
        chord = parse_chord(what)
        return chord.semitones if isinstance(chord, Chord) else frozenset()
    if kind == "scale":
        scale = parse_scale(what)
        return scale.semitones if scale is not None else frozenset()
    return frozenset(name.semitone for name in map(PitchClass.parse, what.split()) if name is not None)


def _place(block: NeckBlock, field: str) -> Span:
    return dict(block.places).get(field, block.span)
