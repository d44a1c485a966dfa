"""A few pages in a folder of their own, with the theme beside them; it opens from disk like a site."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from lickwright.building import swap
from lickwright.building.cache import Cache
from lickwright.building.progress import Watch, unwatched
from lickwright.building.publish import site_files, write
from lickwright.building.results import fulfil

if TYPE_CHECKING:
    from lickwright.building.workers import Failure
    from lickwright.pages.page import Page
    from lickwright.pages.theme import Theme


def make_leaflet(
    pages: Sequence[Page], theme: Theme, folder: Path, cache: Cache, watch: Watch = unwatched
) -> tuple[Failure, ...]:
    """Make pages and swap them into a folder, which is replaced.

    Args:
        pages: Each with its orders.
        theme: Its sheets and scripts go beside the pages.
        folder: Where they are to stand; what an earlier run put there is replaced.
        cache: Where scores and sounds are kept.
        watch: Told how far the work has come.

    Returns:
        What could not be made; then nothing was written.

    Raises:
        NotOursError: ``folder`` holds something that was not made here.
        BusyError: Another command is at work there.
        WorkersError: No worker can be started.
        OSError: The disk refuses.
    """
    with swap.alone(folder):
        fulfilment = fulfil((order for page in pages for order in page.orders), cache, watch)
        if fulfilment.failures:
            return tuple(fulfilment.failures)
        with swap.new_site(folder) as made:
            for path, body in site_files(pages, theme, fulfilment.results):
                write(made, path, body)
    return ()
