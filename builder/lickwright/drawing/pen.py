"""Elements of SVG as text: escaped, no longer than need be."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from lickwright.drawing.picture import Shape

if TYPE_CHECKING:
    from collections.abc import Iterable

RADIUS = 11.0
"""Of a dot."""
_RING, _WITHIN = 13.0, 10.0
_DIAMOND = 14.5
_PAPER = "#fff"
"""What lies under an open dot and is written on a filled one, where no sheet says what the paper is."""
_SIZES = {1: 14, 2: 13}
_SMALLEST = 11


def number(length: float) -> str:
    """Return a length to a tenth.

    >>> number(3.04), number(-0.01), number(12.55)
    ('3', '0', '12.6')
    """
    rounded = round(length + 1e-9, 1)
    return f"{rounded:g}" if rounded else "0"


def element(name: str, inner: str = "", **attributes: object) -> str:
    """Return an element; an attribute's ``_`` is a hyphen, ``kind`` its class.

    >>> element("path", d="M0 0", stroke_width=2.0, kind="nut")
    '<path d="M0 0" stroke-width="2" class="nut"/>'
    """
    written = "".join(f' {_name(key)}="{_value(value)}"' for key, value in attributes.items())
    return f"<{name}{written}>{inner}</{name}>" if inner else f"<{name}{written}/>"


def _name(key: str) -> str:
    return "class" if key == "kind" else key.replace("_", "-") if key != "viewBox" else key


def _value(value: object) -> str:
    return number(value) if isinstance(value, float) else escape(str(value))


def picture(width: float, height: float, title: str, inner: Iterable[str]) -> str:
    """Return a whole picture that is told by its title."""
    return element(
        "svg",
        "".join(inner),
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=width,
        height=height,
        role="img",
        aria_label=title,
        fill="currentColor",
        stroke="none",
    )


def words(x: float, y: float, text: str, *, size: int = _SMALLEST, kind: str = "at") -> str:
    """Return a word centred on a place; of the kind ``paper`` it is written in the paper's colour."""
    fill = _PAPER if kind == "paper" else "currentColor"
    return element(
        "text",
        escape(text),
        x=x,
        y=y + 0.35 * size,
        font_size=size,
        text_anchor="middle",
        fill=fill,
        kind=kind,
    )


def lines(path: str, kind: str, *, weight: float = 1.0) -> str:
    """Return straight lines."""
    return element("path", d=path, kind=kind, fill="none", stroke="currentColor", stroke_width=weight)


def dot(x: float, y: float, shape: Shape, label: str, *, scale: float = 1.0) -> str:
    """Return a dot with its letter; it is told apart by its outline, filled or not."""
    filled = shape in (Shape.ROOT, Shape.TONE)
    size = round(_SIZES.get(len(label), _SMALLEST) * scale**0.5)
    if shape is Shape.ROOT:
        marks = [_disc(x, y, _RING * scale, open_=True), _disc(x, y, _WITHIN * scale)]
    elif shape is Shape.BLUE:
        half = number(_DIAMOND * scale)
        path = f"M{number(x)} {number(y - _DIAMOND * scale)}l{half} {half} -{half} {half} -{half} -{half}z"
        marks = [element("path", d=path, kind="paper", fill=_PAPER, stroke="currentColor", stroke_width=1.5)]
    else:
        marks = [_disc(x, y, RADIUS * scale, open_=not filled)]
    if label:
        marks.append(words(x, y, label, size=size, kind="paper" if filled else "open"))
    return element("g", "".join(marks), kind=f"dot {shape.value}")


def _disc(x: float, y: float, radius: float, *, open_: bool = False) -> str:
    if not open_:
        return element("circle", cx=x, cy=y, r=radius)
    return element(
        "circle", cx=x, cy=y, r=radius, kind="paper", fill=_PAPER, stroke="currentColor", stroke_width=1.5
    )
