"""Rings round the sounds that a finding is about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.overlay.canvas import stroke

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from lickwright.engraving.overlay.canvas import Canvas
    from lickwright.engraving.score import Score
    from lickwright.engraving.signs import Sign
    from lickwright.model.address import Address


def rings(score: Score, marks: Iterable[Address], tone: int | None = None) -> Iterable[tuple[str, str]]:
    """Return kind and local id of every note to be ringed; an address without a sound rings its bar.

    Args:
        score: As set.
        marks: Addresses of sounds or bars.
        tone: Which tone of each sound alone is ringed, from 1; None is all of them.
    """
    wanted = set(marks)
    staves = [letter for letter, number in (("s", score.staves.staff), ("t", score.staves.tab)) if number]
    for entry in score.entries:
        address = entry.sound.address
        if address in wanted or type(address)(address.bar, None, address.lower) in wanted:
            for k, _ in enumerate(entry.sound.tones, 1):
                for letter in staves if tone in (None, k) else ():
                    yield "mark", f"{letter}{entry.first(k)}"


def _ring(canvas: Canvas, sign: Sign) -> None:
    at = canvas.anchor(sign.start)
    if at is None:
        return
    wide, tall = at.half + 90, 190
    arc = f"a{wide:.0f} {tall} 0 1 1"
    path = f"M{at.x - wide:.0f} {at.y:.0f}{arc} {2 * wide:.0f} 0{arc} -{2 * wide:.0f} 0z"
    box = (at.x - wide - 13, at.y - tall - 13, at.x + wide + 13, at.y + tall + 13)

    def draw(_: float) -> None:
        stroke(canvas.group(at.system, at.staff, "mark"), path, weight=26)
        canvas.ink(at).add(box)

    canvas.wish(at, "mark", (), draw, fixed=True)  # last of all: a mark moves nothing


DRAWN: dict[str, Callable[[Canvas, Sign], None]] = {"mark": _ring}
