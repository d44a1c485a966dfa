"""A chord as a box: strings upright, the nut on top, fingers on the dots."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.drawing import pen
from lickwright.drawing.picture import Picture, Shape
from lickwright.terms.numbers import ORDINALS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.drawing.grip import Grip, Held
    from lickwright.instrument.guitar import Guitar

STRING, FRET = 20.0, 26.0
_SIDE, _TOP, _FOOT = 32.0, 24.0, 22.0
_SCALE = 0.78
"""Of its dots against those of the neck."""
_FRETS = 4
_LOW = 4
"""Up to this fret a chord is shown from the nut."""
_NUT = 4.0
_CROSS = 4.5
_FINGERS = {
    "T": "thumb",
    "1": "first finger",
    "2": "second finger",
    "3": "third finger",
    "4": "fourth finger",
}


def draw_box(grip: Grip, guitar: Guitar) -> Picture:
    """Draw a chord.

    Args:
        grip: What is held.
        guitar: How many strings it has, where its capo is, which hand frets.
    """
    said = tuple(_say(grip, guitar))
    title = f"{grip.title} as it is held" + (", left-handed" if guitar.hand == "left" else "")
    drawn = _Box(grip, guitar)
    return Picture(drawn.draw(title), grip.title, said, width=drawn.width)


def first_fret(grip: Grip) -> int:
    """The first fret of a chord's box: 1, or for one higher up the lowest that is held."""
    fretted = [each.fret for each in grip.held if each.fret]
    return 1 if max(fretted) <= _LOW else min(fretted)


def bars_of(grip: Grip) -> tuple[tuple[int, int, int], ...]:
    """Return where one finger holds several strings: fret, its highest-sounding string, its lowest."""
    found: dict[tuple[str, int], list[int]] = {}
    for each in grip.held:
        if each.finger and each.fret:
            found.setdefault((each.finger, each.fret), []).append(each.string)
    return tuple((fret, min(s), max(s)) for (_, fret), s in found.items() if len(s) > 1)


class _Box:
    """Where everything lies."""

    def __init__(self, grip: Grip, guitar: Guitar) -> None:
        self.grip, self.guitar = grip, guitar
        self.base = first_fret(grip)
        self.rows = max(_FRETS, max(each.fret for each in grip.held) - self.base + 1)
        self.width = 2 * _SIDE + STRING * (guitar.strings - 1)
        self.height = _TOP + FRET * self.rows + _FOOT
        self.mirrored = guitar.hand == "left"

    def x(self, string: int) -> float:
        """The lowest string on the left, for a left-handed player on the right."""
        place = string - 1 if self.mirrored else self.guitar.strings - string
        return _SIDE + STRING * place

    def y(self, fret: int) -> float:
        """The middle of a fret space."""
        return _TOP + FRET * (fret - self.base + 0.5)

    def draw(self, title: str) -> str:
        marks = [
            *self._grid(),
            *self._bars(),
            *(mark for each in self.grip.held for mark in self._held(each)),
        ]
        played = {each.string for each in self.grip.held}
        marks += [self._cross(s) for s in range(1, self.guitar.strings + 1) if s not in played]
        return pen.picture(self.width, self.height, title, marks)

    def _grid(self) -> Iterator[str]:
        left, right = sorted((self.x(1), self.x(self.guitar.strings)))
        foot = pen.number(_TOP + FRET * self.rows)
        path = "".join(
            f"M{pen.number(self.x(s))} {pen.number(_TOP)}V{foot}" for s in range(1, self.guitar.strings + 1)
        )
        path += "".join(
            f"M{pen.number(left)} {pen.number(_TOP + FRET * row)}H{pen.number(right)}"
            for row in range(self.rows + 1)
        )
        yield pen.lines(path, "wood")
        if self.base == 1:
            top = pen.number(_TOP - _NUT / 2)
            yield pen.lines(f"M{pen.number(left)} {top}H{pen.number(right)}", "nut", weight=_NUT)
        else:
            side = right + _SIDE / 2 + 6 if not self.mirrored else left - _SIDE / 2 - 6
            yield pen.words(side, self.y(self.base), str(self.base), size=13, kind="base")

    def _bars(self) -> Iterator[str]:
        for fret, high, low in bars_of(self.grip):
            path = f"M{pen.number(self.x(high))} {pen.number(self.y(fret))}H{pen.number(self.x(low))}"
            yield pen.lines(path, "barre", weight=6.0)

    def _held(self, each: Held) -> Iterator[str]:
        x = self.x(each.string)
        if each.fret:
            shape = Shape.ROOT if each.root else Shape.TONE
            yield pen.dot(x, self.y(each.fret), shape, each.finger or "", scale=_SCALE)
        else:
            yield pen.element(
                "circle", cx=x, cy=_TOP / 2, r=4.5, fill="none", stroke="currentColor", stroke_width=1.5
            )
        yield pen.words(x, _TOP + FRET * self.rows + _FOOT / 2 + 2, each.name.display)

    def _cross(self, string: int) -> str:
        x, y, arm = self.x(string), _TOP / 2, _CROSS
        near, far = pen.number(2 * arm), pen.number(-2 * arm)
        path = f"M{pen.number(x - arm)} {pen.number(y - arm)}l{near} {near}m0 {far}l{far} {near}"
        return pen.lines(path, "mute", weight=1.5)


def _say(grip: Grip, guitar: Guitar) -> Iterator[str]:
    held = {each.string: each for each in grip.held}
    for string in range(guitar.strings, 0, -1):
        each = held.get(string)
        if each is None:
            yield f"String {string} is not played."
            continue
        parts = [f"fret {each.fret}" if each.fret else "open"]
        parts += [_FINGERS[each.finger]] if each.fret and each.finger in _FINGERS else []
        parts.append(each.name.spoken + (", the root" if each.root else ""))
        yield f"String {string}: {', '.join(parts)}."
    for fret, high, low in bars_of(grip):
        yield f"One finger lies over strings {high} to {low} at the {ORDINALS[fret]} fret."
