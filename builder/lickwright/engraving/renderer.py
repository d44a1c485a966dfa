"""Verovio, in this process: MEI in, one SVG of all systems out.

The only module that imports Verovio. A wrong number in the MEI would abort the process, so what
comes here is written from validated values only, and ``building`` calls it in a worker.
"""

from __future__ import annotations

import os
import tempfile
from contextlib import contextmanager
from functools import cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lickwright.model.orders import Width

PAGE_WIDTHS: dict[Width, int] = {"wide": 1648, "narrow": 660}
"""In Verovio's units, ten of an SVG's units each; both are shown at half a CSS pixel a unit."""
OPTIONS: dict[str, Any] = {
    "adjustPageHeight": True,
    "breaks": "encoded",
    "footer": "none",
    "header": "none",
    "lyricSize": 6,
    "minLastJustification": 0.6,
    "pageHeight": 60000,
    "pageMarginBottom": 20,
    "pageMarginLeft": 20,
    "pageMarginRight": 20,
    "pageMarginTop": 20,
    "smuflTextFont": "none",
    "spacingStaff": 6,
    "spacingSystem": 6,
    "svgFormatRaw": True,
    "svgRemoveXlink": True,
    "svgViewBox": True,
    "xmlIdChecksum": True,
}

_OF_NO_CONCERN = (
    "[Warning] Justification is highly compressed",
    "[Warning] \tSystem full width",
    "[Warning] \tNon-justifiable width",
    "[Warning] \tDrawing justifiable width",
)
"""Of a full bar on a narrow line: tight, but all of it is there."""


@cache
def _toolkit() -> Any:
    """The one toolkit of a process: making one reads the whole music font."""
    import verovio

    return verovio.toolkit()


def toolkit(mei: str, width: Width) -> Any:
    """Return Verovio's toolkit with the document loaded; it holds it until the next one is.

    Raises:
        ValueError: When the document does not load: our mistake.
    """
    made = _toolkit()
    made.setOptions({**OPTIONS, "pageWidth": PAGE_WIDTHS[width]})
    if not made.loadData(mei):
        raise ValueError("Verovio does not load the document")
    return made


def render(mei: str, width: Width) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the SVG of every page and what Verovio had to say."""
    with _messages() as said:
        made = toolkit(mei, width)
        pages = tuple(made.renderToSVG(page) for page in range(1, made.getPageCount() + 1))
    return pages, tuple(line for line in said if not line.startswith(_OF_NO_CONCERN))


@contextmanager
def _messages() -> Iterator[list[str]]:
    """Collect what is written to file descriptor 2 meanwhile: Verovio's only voice."""
    said: list[str] = []
    kept = os.dup(2)
    with tempfile.TemporaryFile() as held:
        os.dup2(held.fileno(), 2)
        try:
            yield said
        finally:
            os.dup2(kept, 2)
            os.close(kept)
            held.seek(0)
            said += held.read().decode(errors="replace").splitlines()
