"""All pages of an edition, and the files that stand beside them."""

from __future__ import annotations

from lickwright.checks.proof import Proof
from lickwright.model.course import Course
from lickwright.model.timeline import Book
from lickwright.pages.edition import Edition
from lickwright.pages.guide import guide_pages, read_guide
from lickwright.pages.handbook import handbook_pages
from lickwright.pages.index import start_page
from lickwright.pages.lesson import lesson_page
from lickwright.pages.page import Page
from lickwright.pages.proof_sheet import proof_sheet
from lickwright.pages.theme import Theme, read_theme


def site_pages(
    course: Course, book: Book, proof: Proof, *, sound: bool = True, theme: Theme | None = None
) -> tuple[Page, ...]:
    """Return every page: the start page, the lessons, and the editor's shelf.

    Args:
        course: As read.
        book: Its music.
        proof: What was found in it.
        sound: False leaves the sound out.
        theme: As read; None is ours without an author's changes.
    """
    theme = theme or read_theme()
    edition = Edition(course, book, theme, proof.findings, proof.standing, sound)
    return (*student_pages(edition), *editor_pages(edition, read_guide(theme)))


def student_pages(edition: Edition) -> tuple[Page, ...]:
    """Return what the student reads."""
    lessons = (lesson_page(edition, lesson) for lesson in edition.course.lessons)
    return (start_page(edition), *lessons)


def editor_pages(edition: Edition, guide: Edition | None = None) -> tuple[Page, ...]:
    """Return the proof sheet, the handbook of rules and the author's guide."""
    beside = guide is not None
    pages = [proof_sheet(edition, guide=beside), *handbook_pages(edition, guide=beside)]
    return (*pages, *(guide_pages(edition, guide) if guide else ()))


def theme_files(theme: Theme | None = None) -> tuple[tuple[str, bytes], ...]:
    """Return path and content of the sheets and scripts; ``theme`` as for ``site_pages``."""
    assets = (theme or read_theme()).assets
    return tuple((f"theme/{name}", data) for name, data in assets.items())
