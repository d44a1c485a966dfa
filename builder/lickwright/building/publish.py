"""A course becomes a site: proofed, everything its pages order made, written beside, swapped in whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from lickwright.building import swap
from lickwright.building.budget import Weight, weigh
from lickwright.building.cache import Cache
from lickwright.building.failures import findings_of, notes_of
from lickwright.building.pictures import read_pictures
from lickwright.building.progress import Step, Watch, unwatched
from lickwright.building.proofing import Proofed, proof_course
from lickwright.building.results import Results, fulfil
from lickwright.building.shelf import keep_shelf, kept_shelf, shelf_key
from lickwright.building.unchanged import Record, digest_of, keep_record, kept_record, site_key, stands
from lickwright.checks.signing import SignOff, list_unsigned
from lickwright.findings import Finding
from lickwright.model.orders import Order, Recorded, SoundOrder

if TYPE_CHECKING:
    from lickwright.pages.page import Page
    from lickwright.pages.theme import Theme

SHARED = ("sound/", "views/")
"""Folders of files that are named by what is in them."""


@dataclass(frozen=True, slots=True)
class Published:
    """What a publish came to.

    Attributes:
        proofed: The course and its proof.
        findings: What the builder could not make (the site was not replaced), or notes on what it made.
        site: Whether the site was replaced.
        pages: Files written.
        made: Scores and sounds made now.
        kept: Scores and sounds found in the cache.
        heavy: Lesson pages that weigh more than their budget.
        unsigned: How far the lessons are that a publish of signed ones was refused for.
    """

    proofed: Proofed
    findings: tuple[Finding, ...] = ()
    site: bool = False
    pages: int = 0
    made: int = 0
    kept: int = 0
    heavy: tuple[Weight, ...] = ()
    unsigned: tuple[SignOff, ...] = ()


def publish(
    course: Path,
    site: Path,
    cache: Cache,
    *,
    sound: bool = True,
    signed: bool = False,
    watch: Watch = unwatched,
) -> Published:
    """Publish the course in a folder.

    A course with errors does not publish. Until the new site is whole, the last one stands as it was.

    Args:
        course: The course's folder.
        site: Where the site is to stand.
        cache: Where scores and sounds are kept between publishes.
        sound: False leaves the sound out.
        signed: Refuse, unless every lesson is signed as it stands.
        watch: Told how far the work has come.

    Raises:
        NotOursError: ``site`` holds something that no publish put there, or can be no folder.
        BusyError: Another publish is at work there; said before any work.
        ThemeError: A template of the author's cannot be used.
        WorkersError: No worker can be started, or the cache cannot be written.
        OSError: The disk refuses.
    """
    with swap.alone(site):
        return _publish(course, site, cache, sound, signed, watch)


def _publish(course: Path, site: Path, cache: Cache, sound: bool, signed: bool, watch: Watch) -> Published:
    watch(Step("Proofing"))
    proofed = proof_course(course)
    if proofed.proof.errors or proofed.course is None or proofed.book is None:
        return Published(proofed)
    if signed and (unsigned := list_unsigned(proofed.course, proofed.book)):
        return Published(proofed, unsigned=unsigned)
    from lickwright.pages.theme import read_theme

    theme = read_theme(course / "theme")
    look: dict[str, str | bytes] = {**theme.templates, **theme.assets}
    key = site_key(proofed, look, sound=sound)
    record = kept_record(cache, key)
    if record is not None and stands(record, swap.berth(site).site, course):
        return _told(proofed, record)
    from lickwright.pages.site import shelf_pages, site_pages

    watch(Step("Setting the pages"))
    pages = site_pages(proofed.course, proofed.book, proofed.proof, sound=sound, theme=theme)
    beside = shelf_key(proofed.course, look, sound=sound)
    shelf = kept_shelf(cache, beside)
    unmade = shelf_pages(proofed.course, theme, sound=sound) if shelf is None else ()
    fulfilment = fulfil((order for page in (*pages, *unmade) for order in page.orders), cache, watch)
    made, kept = fulfilment.made, fulfilment.kept
    if fulfilment.failures:
        return Published(
            proofed, findings_of(fulfilment.failures, proofed.course, proofed.book), made=made, kept=kept
        )
    watch(Step("Writing the site"))
    if shelf is None:
        shelf = {page.path: page.render(fulfilment.results.get) for page in unmade}
        heard = (order for page in unmade for order in page.orders)
        shelf |= {path: body.decode() for path, body in sound_files(heard, fulfilment.results)}
        keep_shelf(cache, beside, shelf)
    shown = tuple(picture for page in pages for picture in page.pictures)
    files: dict[str, str] = {}
    weights: list[Weight] = []
    with swap.new_site(site) as folder:
        own = site_files(pages, theme, fulfilment.results)
        others = ((path, text.encode()) for path, text in shelf.items())
        for path, body in chain(own, others, read_pictures(shown, course)):
            if path.startswith(SHARED) and path in files:
                continue  # equal content is one file
            write(folder, path, body)
            files[path] = digest_of(body)
            if path.startswith("lessons/"):
                weights.append(weigh(path, body))
    warnings = tuple(fulfilment.results.warnings)
    record = Record(files, shown, tuple(weights), warnings, len(pages) + len(shelf), made + kept)
    keep_record(cache, key, record)
    cache.trim()
    return _told(proofed, record, made)


def _told(proofed: Proofed, record: Record, made: int = 0) -> Published:
    """Say what a publish came to that stands as recorded."""
    assert proofed.course is not None
    assert proofed.book is not None
    return Published(
        proofed,
        notes_of(record.warnings, proofed.course, proofed.book),
        site=True,
        pages=record.pages,
        made=made,
        kept=record.orders - made,
        heavy=tuple(weight for weight in record.weights if weight.over),
    )


def site_files(pages: Iterable[Page], theme: Theme, results: Results) -> Iterator[tuple[str, bytes]]:
    """Yield path and content of every file of a site, one at a time."""
    from lickwright.pages.site import theme_files

    yield from theme_files(theme)
    taken: set[str] = set()
    for page in pages:
        yield page.path, page.render(results.get).encode()
        for path, body in page.files(results.get).items():
            if path not in taken:
                taken.add(path)
                yield path, body
    yield from sound_files(results, results)


def sound_files(orders: Iterable[Order], results: Results) -> Iterator[tuple[str, bytes]]:
    """Yield path and content of every sound among orders, equal ones once."""
    from lickwright.pages.player_data import sound_path, sound_script

    taken: set[str] = set()
    for order in orders:
        recorded = results.get(order) if isinstance(order, SoundOrder) else None
        if isinstance(recorded, Recorded) and (path := sound_path(recorded)) not in taken:
            taken.add(path)  # equal sounds are one file
            yield path, sound_script(recorded)


def write(folder: Path, path: str, body: bytes) -> None:
    """Write one file of a site.

    Raises:
        ValueError: A path that leaves the folder, or one that is taken: a fault of ours.
    """
    inside = PurePosixPath(path)
    target = folder / inside
    if inside.is_absolute() or ".." in inside.parts or target.exists():
        raise ValueError(f"{path} cannot be a file of the site")
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(body)
