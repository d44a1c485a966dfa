"""Parts of a layer joined by beams and tuplet brackets, as MEI."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.analysis.notation.beaming import windows as beam_windows
from lickwright.analysis.notation.pieces import Bracketed, Layer, Part, Piece
from lickwright.engraving.tag import tag

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator


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
    windows = beam_windows(layer) if beamed else None

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
