"""All pages of an edition, and the files that stand beside them."""

from __future__ import annotations

from lickwright.checks.proof import Proof
from lickwright.model.course import Course
from lickwright.model.timeline import Book
from lickwright.pages.edition import Edition
from lickwright.pages.guide import guide_pages, has_guide, read_guide
from lickwright.pages.handbook import handbook_pages
from lickwright.pages.index import start_page
from lickwright.pages.legend import legend_page
from lickwright.pages.lesson import lesson_page
from lickwright.pages.packing import pack
from lickwright.pages.page import Page
from lickwright.pages.proof_room import room_pages
from lickwright.pages.proof_sheet import proof_sheet
from lickwright.pages.shelf_page import shelf_page
from lickwright.pages.theme import Theme, read_theme
from lickwright.pages.typography import typeset


def site_pages(
    course: Course, book: Book, proof: Proof, *, sound: bool = True, theme: Theme | None = None
) -> tuple[Page, ...]:
    """Return what is made of the course: the start page, the lessons and the proof sheet.

    Args:
        course: As read.
        book: Its music.
        proof: What was found in it.
        sound: False leaves the sound out.
        theme: As read; None is ours without an author's changes.
    """
    look = theme or read_theme()
    edition = Edition(typeset(course), book, look, proof.findings, proof.standing, sound, signs=True)
    return (*student_pages(edition), proof_sheet(edition, guide=has_guide()))


def sheet_pages(course: Course, book: Book, proof: Proof, *, sound: bool, theme: Theme) -> tuple[Page, ...]:
    """Return the proof sheet by itself: contents, sheet and handbook, for a course that need not be whole.

    Args:
        course: As read.
        book: Its music as far as it resolves.
        proof: What was found in it, all or a part.
        sound: False leaves the sound of the bars out.
        theme: As read.
    """
    edition = Edition(typeset(course), book, theme, proof.findings, proof.standing, sound)
    handbook = handbook_pages(edition, guide=False)
    return (shelf_page(edition), proof_sheet(edition, guide=False), *handbook)


def student_pages(edition: Edition) -> tuple[Page, ...]:
    """Return what the student reads."""
    lessons = (lesson_page(edition, lesson) for lesson in edition.course.lessons)
    return (start_page(edition), *lessons, legend_page(edition))


def shelf_pages(course: Course, theme: Theme | None = None, *, sound: bool = True) -> tuple[Page, ...]:
    """Return what stands beside every course for its author: handbook, guide and proof room.

    They are the same for every course but for its title, edition and licence, and for the sounds of the room.
    """
    edition = Edition(typeset(course), Book(), theme or read_theme(), sound=sound)
    guide = read_guide(edition.theme)
    handbook = handbook_pages(edition, guide=guide is not None)
    return (*handbook, *(guide_pages(edition, guide) if guide else ()), *room_pages(edition))


def theme_files(theme: Theme | None = None) -> tuple[tuple[str, bytes], ...]:
    """Return path and content of the sheets and scripts, packed; ``theme`` as for ``site_pages``."""
    assets = (theme or read_theme()).assets
    return tuple((f"theme/{name}", pack(name, data)) for name, data in assets.items())
