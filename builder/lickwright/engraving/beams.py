"""Parts of a layer joined by beams and tuplet brackets, by groups of beats (common practice).

Eighths alone are beamed by half bars in 4/4 and 2/2 and by the whole bar in 3/4, all else by
beats; a rest ends a beam; a tuplet is beamed by itself.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, groupby, pairwise
from typing import TYPE_CHECKING

from lickwright.engraving.pieces import Bracketed, Layer, Part, Piece
from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from lickwright.theory.meter import Meter

_EIGHTH = Fraction(1, 2)


def join(
    layer: Layer,
    leaf: Callable[[Piece], str],
    *,
    beamed: bool,
    numbered: bool,
    lead: Callable[[Piece], str] = lambda _: "",
    before: Callable[[Piece], str] = lambda _: "",
) -> str:
    """Return the content of an MEI layer.

    Args:
        layer: What is printed.
        leaf: Writes one piece.
        beamed: With beams.
        numbered: With tuplet numbers.
        lead: Writes grace notes that have a beam of their own, for which a beam is broken.
        before: Writes other small notes; those of its first note stand before a beam, which
            would else begin at them.
    """
    windows = _windows(layer) if beamed else None

    def write(parts: tuple[Part, ...], *, inside: bool) -> Iterator[str]:
        broken = 0

        def group(part: Part) -> object:
            nonlocal broken
            broken += isinstance(part, Piece) and bool(lead(part))
            if windows is None or isinstance(part, Bracketed) or part.sound is None or part.length >= 1:
                return part if isinstance(part, Bracketed) else (part.onset,)
            return (broken, True if inside else windows(part.onset))

        for _, members in groupby(parts, group):
            run = list(members)
            if isinstance(run[0], Bracketed):
                yield from (_tuplet(part, write, numbered) for part in run if isinstance(part, Bracketed))
                continue
            pieces = [part for part in run if isinstance(part, Piece)]
            yield lead(pieces[0]) + before(pieces[0])
            content = leaf(pieces[0]) + "".join(before(piece) + leaf(piece) for piece in pieces[1:])
            yield tag("beam", content) if len(pieces) > 1 else content

    return "".join(write(layer.parts, inside=False))


def _tuplet(part: Bracketed, write: Callable[..., Iterator[str]], numbered: bool) -> str:
    # Verovio counts the time of the innermost tuplet alone, so a nested one is given the whole
    # ratio and its number is drawn over it
    quiet = None if numbered and not part.nested else "false"
    ratio = (part.ratio.numerator, part.ratio.denominator) if part.nested else (part.number, part.normal)
    beamed = all(isinstance(m, Piece) and m.sound is not None and m.length < 1 for m in part.members)
    return tag(
        "tuplet",
        "".join(write(part.members, inside=True)),
        num=ratio[0],
        numbase=ratio[1],
        num__visible=quiet,
        bracket__visible="false" if beamed or quiet else "true",
    )


def _windows(layer: Layer) -> Callable[[Fraction], Fraction]:
    """Return the function from an onset to the start of its beam group."""
    meter = layer.bar.meter
    edges = list(accumulate(meter.beat_groups, initial=Fraction(0)))
    merged = _merged(meter, edges)
    starts = [edge - layer.bar.offset for edge in edges]
    for first, last in merged:
        inside = [p for p in layer.pieces if first <= p.onset + layer.bar.offset < last]
        even = all(p.sound is not None and p.length == _EIGHTH for p in inside)
        if even and not any(_overlaps(part, first, last, layer.bar.offset) for part in layer.parts):
            starts = [start for start in starts if not first < start + layer.bar.offset < last]
        elif meter.unit == 2:
            starts += [first + 1 - layer.bar.offset]
    starts.sort()
    return lambda onset: max((start for start in starts if start <= onset), default=Fraction(-1))


def _merged(meter: Meter, edges: list[Fraction]) -> list[tuple[Fraction, Fraction]]:
    if meter.unit == 2:
        return list(pairwise(edges))
    if meter.unit == 4 and meter.count % 4 == 0:
        return list(pairwise(edges[::2]))
    if meter.unit == 4 and meter.count == 3:
        return [(edges[0], edges[3])]
    return []


def _overlaps(part: Part, first: Fraction, last: Fraction, shift: Fraction) -> bool:
    while isinstance(part, Bracketed):
        part = part.members[0]
        if isinstance(part, Piece):
            return first <= part.onset + shift < last
    return False
