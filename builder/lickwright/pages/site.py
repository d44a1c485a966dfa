"""All pages of an edition, and the files that stand beside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lickwright.checks.catalogue import rules
from lickwright.model.orders import Recorded
from lickwright.pages.edition import Edition
from lickwright.pages.guide import contents, guide_page
from lickwright.pages.handbook import handbook_pages
from lickwright.pages.index import start_page
from lickwright.pages.lesson import lesson_page
from lickwright.pages.page import Page
from lickwright.pages.player_data import sound_path, sound_script
from lickwright.pages.proof_sheet import proof_sheet


def site_pages(edition: Edition, guide: Edition | None = None) -> tuple[Page, ...]:
    """Return every page: the start page, the lessons, and the editor's shelf.

    Args:
        edition: The course.
        guide: The author's guide (its ``folder`` is ``guide``), or None to leave it out.
    """
    return (*student_pages(edition), *editor_pages(edition, guide))


def student_pages(edition: Edition) -> tuple[Page, ...]:
    """Return what the student reads."""
    lessons = (lesson_page(edition, lesson) for lesson in edition.course.lessons)
    return (start_page(edition), *lessons)


def editor_pages(edition: Edition, guide: Edition | None = None) -> tuple[Page, ...]:
    """Return the proof sheet, the handbook of rules and the author's guide."""
    shelf = contents(guide) if guide else ()
    pages = [proof_sheet(edition, tuple(rules()), shelf), *handbook_pages(edition, shelf)]
    if guide:
        pages += [guide_page(edition, guide, lesson) for lesson in guide.course.lessons]
    return tuple(pages)


def theme_files(edition: Edition) -> dict[str, bytes]:
    """Return the sheets and scripts by their paths in the site."""
    return {f"theme/{name}": data for name, data in edition.theme.assets.items()}


def sound_files(recorded: Iterable[Recorded]) -> Iterator[tuple[str, bytes]]:
    """Return path and content of the script that carries each sound; equal sounds are one file."""
    seen: set[str] = set()
    for sound in recorded:
        path = sound_path(sound)
        if path not in seen:
            seen.add(path)
            yield path, sound_script(sound)
