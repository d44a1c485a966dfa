"""The proof sheet in a folder of its own, for a course that cannot be published yet too."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lickwright.building import swap
from lickwright.building.cache import Cache
from lickwright.building.progress import Step, Watch, unwatched
from lickwright.building.proofing import Proofed
from lickwright.building.publish import site_files, write
from lickwright.building.results import fulfil
from lickwright.building.workers import Failure
from lickwright.findings import Severity

MARK = "lessons"
"""A folder of every published site and of no proof sheet."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """What became of it.

    Attributes:
        pages: Files of text written; 0 where there is no course to write about.
        made, kept: Scores and sounds made now, and found in the cache.
        failures: What could not be made: the sheet stands without it. Music with a fault that leaves nothing
            to draw is none: its finding says why.
    """

    pages: int = 0
    made: int = 0
    kept: int = 0
    failures: tuple[Failure, ...] = ()


def make_sheet(
    proofed: Proofed,
    theme: Path,
    folder: Path,
    cache: Cache,
    *,
    sound: bool = True,
    watch: Watch = unwatched,
) -> Sheet:
    """Make the proof sheet of a course, with its handbook, theme and sounds.

    Args:
        proofed: The course and what is to be shown of its proof.
        theme: The course's own theme folder.
        folder: Where the sheet is to stand; an earlier one is replaced, a published site is not.
        cache: Where scores and sounds are kept.
        sound: False leaves the sound of the bars out.
        watch: Told how far the work has come.

    Raises:
        NotOursError: ``folder`` holds a published site, or something that was not made here.
        BusyError: Another command is at work there.
        ThemeError: A template of the author's cannot be used.
        WorkersError: No worker can be started, or the cache cannot be written.
        OSError: The disk refuses.
    """
    if proofed.course is None or proofed.book is None:
        return Sheet()
    from lickwright.pages.site import sheet_pages
    from lickwright.pages.theme import read_theme

    if (folder / swap.SEAL).exists() and (folder / MARK).exists():
        raise swap.NotOursError(f"{folder.name} holds a published site; the sheet wants a folder of its own")
    with swap.alone(folder):
        watch(Step("Setting the proof sheet"))
        look = read_theme(theme)
        pages = sheet_pages(proofed.course, proofed.book, proofed.proof, sound=sound, theme=look)
        fulfilment = fulfil((order for page in pages for order in page.orders), cache, watch)
        results = fulfilment.results.without(failure.job for failure in fulfilment.failures)
        with swap.new_site(folder) as place:
            for path, body in site_files(pages, look, results):
                write(place, path, body)
    unsound = _unsound(proofed)
    failures = tuple(each for each in fulfilment.failures if each.job.order.for_lick not in unsound)
    return Sheet(len(pages), fulfilment.made, fulfilment.kept, failures)


def _unsound(proofed: Proofed) -> frozenset[str]:
    """Names of the pieces whose music does not stand, and of what shows it."""
    from lickwright.checks.catalogue import rules

    known = rules()
    faulty = {
        finding.lick
        for finding in proofed.proof.findings
        if finding.severity is Severity.ERROR and finding.rule in known and not known[finding.rule].stettable
    }
    pieces = proofed.book.pieces if proofed.book else ()
    return frozenset(faulty | {piece.name for piece in pieces if piece.of in faulty})
