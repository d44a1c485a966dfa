"""From an order to the engraved systems: what ``building`` calls in a worker process."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.engraving.bar_lines import mend_bar_lines
from lickwright.engraving.document import document
from lickwright.engraving.glyphs import define_glyphs
from lickwright.engraving.grace_digits import set_graces
from lickwright.engraving.ids import page_prefix
from lickwright.engraving.overlay.canvas import Canvas
from lickwright.engraving.overlay.families import draw_signs
from lickwright.engraving.overlay.joining import join_staves
from lickwright.engraving.overlay.marks import rings
from lickwright.engraving.renderer import render
from lickwright.engraving.signs import Sign
from lickwright.engraving.systems import finish, read_page, replace_digits
from lickwright.model.orders import Engraved

if TYPE_CHECKING:
    from lickwright.engraving.document import Document
    from lickwright.model.orders import ScoreOrder


def engrave(order: ScoreOrder) -> Engraved:
    """Engrave a score.

    Args:
        order: The music, the width and the view; its bars may be over- or underfull.

    Returns:
        One SVG a system, from the top; the glyphs they use; Verovio's own messages.

    Raises:
        ValueError: When a note is missing from what Verovio drew: our mistake or its.
    """
    if not order.music.bars:
        return Engraved(())
    made = document(order.music, order.view, order.width)
    pages, said = render(made.mei, order.width)
    return dress(order, made, pages, said)


def dress(order: ScoreOrder, made: Document, pages: tuple[str, ...], said: tuple[str, ...]) -> Engraved:
    """Draw the signs over Verovio's pages and cut them into systems."""
    prefix = page_prefix(order.prefix, order.width)
    signs = [*made.signs, *(Sign(*ring) for ring in rings(made.score, order.marks, order.tone))]
    systems = []
    outlines: dict[str, str] = {}
    read = [read_page(svg) for svg in pages]
    canvas = Canvas((system for page in read for system in page.systems), made.score.staves.names)
    replace_digits(canvas, made.texts)
    missing = sorted(made.notes - canvas.elements.keys())
    if missing:
        raise ValueError(f"not drawn: {', '.join(missing)}")
    set_graces(canvas, made.score)
    for page in read:
        outlines |= page.glyphs
    canvas.read(outlines)
    draw_signs(canvas, signs)
    join_staves(canvas)
    mend_bar_lines(canvas)
    kept = made.notes | {f"b{number}" for number in made.bars}
    frames = iter(canvas.frames)
    for page in read:
        systems += [finish(next(frames), prefix, page.width, kept) for _ in page.systems]
    return Engraved(tuple(systems), define_glyphs(outlines, (system.svg for system in systems)), said)
