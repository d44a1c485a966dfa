"""What the hands do to one string, in the words that stand in print, for formats that have no sign for it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from lickwright.analysis.notation.pieces import moves
from lickwright.model.strike import Hammered, Harmonic, Late, Tapped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.music import Tone


def of_head(tone: Tone) -> Iterator[str]:
    """Yield the words for how a tone begins."""
    match tone.head:
        case Tapped():
            yield "T"
        case Hammered():
            yield "H"
        case Harmonic(_, touch):
            yield "harm." if touch.denominator == 1 and tone.head.fret == 0 else f"harm. {float(touch):g}"


def heights(tone: Tone) -> list[Fraction]:
    """How far each bend or release of a tone moves its string, in half steps; let down, it is negative."""
    made = moves(tone)
    before = Fraction(tone.fret or 0)
    if isinstance(tone.head, Late) and len(tone.path) > 1 and made:
        before = made[0].to - (tone.path[1] - tone.path[0])
    found = []
    for bend in made:
        found.append(bend.to - before)
        before = bend.to
    return found
