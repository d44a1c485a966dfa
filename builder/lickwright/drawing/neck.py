"""A stretch of the neck with dots on it."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from lickwright.drawing import pen
from lickwright.drawing.picture import Picture, Shape
from lickwright.instrument.fretboard import fret_position

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from lickwright.drawing.picture import Dot
    from lickwright.drawing.window import Window
    from lickwright.instrument.guitar import Guitar

INLAYS: dict[int, int] = {3: 1, 5: 1, 7: 1, 9: 1, 12: 2, 15: 1, 17: 1, 19: 1, 21: 1, 24: 2}
"""How many marks lie in a fret space, counted from the nut."""
STRING = 32.0
"""From string to string."""
NARROWEST, _AVERAGE, _LONGEST = 30.0, 44.0, 500.0
_NAMES, _OPEN, _STUB, _END = 24.0, 36.0, 10.0, 10.0
_TOP, _FOOT = 17.0, 34.0
_NUT, _CAPO = 4.0, 7.0
_INLAY = 3.0


def draw_neck(
    dots: Sequence[Dot],
    guitar: Guitar,
    window: Window,
    title: str,
    legend: Sequence[tuple[Shape, str]] = (),
) -> Picture:
    """Draw a stretch of the neck.

    Args:
        dots: Those outside the window are left out.
        guitar: Says how the strings are tuned, where the capo is, which hand frets.
        window: The frets and strings shown.
        title: What is shown.
        legend: What each shape means; printed for those that are there, where they are of several kinds.
    """
    shown = [dot for dot in dots if dot.fret in window.frets and dot.string in window.strings]
    whole = f"{title}, {_where(window, guitar)}"
    kinds = {dot.shape for dot in shown}
    told = [words for shape, words in legend if shape in kinds] if len(kinds) > 1 else []
    said = tuple(_say(shown, window))
    drawn = _Neck(guitar, window)
    legend_said = "".join(f"{words}. " for words in told).rstrip()
    return Picture(drawn.draw(shown, whole), whole, said, legend_said, drawn.width)


def fret_places(guitar: Guitar, window: Window) -> dict[int, float]:
    """Return how far each fret of a window lies from its first line: as the wood has them.

    Returns:
        From the fret's number to px; the first is the nut, or the fret below the window.
    """
    first = max(window.low - 1, 0)
    frets = range(first, max(window.high, 1) + 1)
    places = [fret_position(fret, guitar.scale_length, guitar.capo) for fret in frets]
    whole = min(_AVERAGE * (len(frets) - 1), _LONGEST) / (places[-1] - places[0])
    scale = max(whole, NARROWEST / (places[-1] - places[-2]))
    return {fret: (place - places[0]) * scale for fret, place in zip(frets, places, strict=True)}


class _Neck:
    """Where everything lies."""

    def __init__(self, guitar: Guitar, window: Window) -> None:
        self.guitar, self.window = guitar, window
        self.left = _NAMES + (_OPEN if not window.low else _STUB)
        self.frets = {fret: self.left + place for fret, place in fret_places(guitar, window).items()}
        self.right = max(self.frets.values())
        self.width = self.right + _END
        self.height = _TOP + STRING * (len(window.strings) - 1) + _FOOT
        mirrored = guitar.hand == "left"
        self.x: Callable[[float], float] = (lambda x: self.width - x) if mirrored else (lambda x: x)

    def y(self, string: int) -> float:
        return _TOP + STRING * (string - self.window.first)

    def middle(self, fret: int) -> float:
        """The middle of a fret space; of the open string left of the nut."""
        return _NAMES + pen.RADIUS + 2 if not fret else (self.frets[fret - 1] + self.frets[fret]) / 2

    def draw(self, dots: Sequence[Dot], title: str) -> str:
        marks = (pen.dot(self.x(self.middle(d.fret)), self.y(d.string), d.shape, d.label) for d in dots)
        return pen.picture(self.width, self.height, title, (*self._wood(), *self._written(), *marks))

    def _wood(self) -> Iterator[str]:
        top, foot = self.y(self.window.first), self.y(self.window.last)
        start, end = pen.number(self.x(self.left)), pen.number(self.x(self.right))
        if self.window.low > 1:
            start = pen.number(self.x(self.left - _STUB + 3))
        strings = "".join(f"M{start} {pen.number(self.y(s))}H{end}" for s in self.window.strings)
        wires = "".join(
            f"M{pen.number(self.x(x))} {pen.number(top)}V{pen.number(foot)}"
            for f, x in self.frets.items()
            if f
        )
        yield pen.lines(strings + wires, "wood")
        if 0 in self.frets:
            nut = _CAPO if self.guitar.capo else _NUT
            at = self.x(self.left - nut / 2)
            yield pen.lines(
                f"M{pen.number(at)} {pen.number(top - 2)}V{pen.number(foot + 2)}", "nut", weight=nut
            )
        yield from self._inlays()

    def _inlays(self) -> Iterator[str]:
        """Marks between two strings next to the middle of those shown."""
        gaps = len(self.window.strings) - 1
        if not gaps:
            return
        middle = (gaps - 1) // 2
        for fret in self.window.frets:
            many = INLAYS.get(fret + self.guitar.capo, 0) if fret else 0
            between = [middle] if many == 1 or gaps < 3 else [middle - 1, gaps - middle]
            for gap in between if many else ():
                y = _TOP + STRING * (gap + 0.5)
                yield pen.element("circle", cx=self.x(self.middle(fret)), cy=y, r=_INLAY, kind="inlay")

    def _written(self) -> Iterator[str]:
        foot = self.y(self.window.last) + _FOOT - 10
        for string in self.window.strings:
            name = self.guitar.tuning.open(string).name.display
            yield pen.words(self.x(_NAMES / 2), self.y(string), name)
        for fret in self.window.frets:
            if fret:
                yield pen.words(self.x(self.middle(fret)), foot, str(fret))
        if self.guitar.capo and 0 in self.frets:
            yield pen.words(self.x(_NAMES + 6), foot, f"capo {self.guitar.capo}")


def _where(window: Window, guitar: Guitar) -> str:
    low, high = window.low, window.high
    said = f"fret {low}" if low == high else f"frets {low} to {high}"
    if len(window.strings) < guitar.strings:
        first, last = window.first, window.last
        said += f", string {first}" if first == last else f", strings {first} to {last}"
    if guitar.capo:
        said += f", capo at {guitar.capo}"
    return said + (", left-handed" if guitar.hand == "left" else "")


def _say(dots: Sequence[Dot], window: Window) -> Iterator[str]:
    by_string = {
        string: list(found)
        for string, found in groupby(sorted(dots, key=lambda d: (d.string, d.fret)), lambda d: d.string)
    }
    for string in window.strings:
        found = by_string.get(string, [])
        places = "; ".join(f"{f'fret {dot.fret}' if dot.fret else 'open'}, {dot.said}" for dot in found)
        yield f"String {string}: {places or 'nothing'}."
