"""Pictures of the neck and of chords as a page shows them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from lickwright.drawing.block import block_picture
from lickwright.drawing.box import draw_box
from lickwright.drawing.grip import list_grips
from lickwright.pages.typography import printed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.drawing.picture import Picture
    from lickwright.instrument.guitar import Guitar
    from lickwright.model.blocks import NeckBlock
    from lickwright.model.course import Settings
    from lickwright.model.fields import Shape
    from lickwright.model.music import Piece

NARROWEST_PAGE = 288
"""Px that every page has for a picture: a phone of 320 without its margins."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture as the templates print it.

    Attributes:
        wide: Whether a phone has to scroll it; ``mirrored``: from its right, where the nut is.
    """

    svg: Markup
    title: str
    said: tuple[str, ...]
    legend: str
    wide: bool
    mirrored: bool = False


def neck(block: NeckBlock, settings: Settings, piece: Piece | None, language: str = "en") -> Drawn | None:
    """Return the picture of a neck block.

    Args:
        block: As read.
        settings: The course's.
        piece: The lick it names, where it names one.
        language: Of the course.
    """
    picture = block_picture(block, settings.guitar, settings.key, piece)
    return None if picture is None else _drawn(picture, settings.guitar, language)


def grips(piece: Piece, shapes: Iterable[Shape] = (), language: str = "en") -> tuple[Drawn, ...]:
    """Return the chords of a lick as they are held, each once."""
    guitar = piece.music.guitar
    return tuple(_drawn(draw_box(grip, guitar), guitar, language) for grip in list_grips(piece.music, shapes))


def _drawn(picture: Picture, guitar: Guitar, language: str) -> Drawn:
    svg = Markup(picture.svg)  # noqa: S704 - our own, an author's words escaped
    title = printed(picture.title, language)
    return Drawn(
        svg, title, picture.said, picture.legend, picture.width > NARROWEST_PAGE, guitar.hand == "left"
    )
