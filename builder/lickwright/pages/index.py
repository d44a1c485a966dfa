"""The start page: title, set list, cautions."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.pages.counting import capital, count, listed
from lickwright.pages.edition import Edition
from lickwright.pages.facts import guitar_words, lesson_facts
from lickwright.pages.links import relative
from lickwright.pages.markdown import deck_of
from lickwright.pages.page import Made, Page

PATH = "index.html"


@dataclass(frozen=True, slots=True)
class Entry:
    """A lesson in the set list."""

    number: int
    title: str
    href: str
    deck: Markup
    facts: str


@dataclass(frozen=True, slots=True)
class UnitView:
    """A part of the set list."""

    title: str
    lessons: tuple[Entry, ...]


def start_page(edition: Edition) -> Page:
    """Return the start page; it orders nothing."""
    course = edition.course

    def render(_: Made) -> str:
        units, number = [], 0
        for unit in course.units:
            entries = []
            for lesson in unit.lessons:
                number += 1
                href = relative(edition.paths[lesson.name], PATH)
                facts = lesson_facts(edition.pieces_in(lesson))
                entries.append(
                    Entry(number, lesson.title, href, deck_of(lesson.source.text, course.language), facts)
                )
            if entries:
                units.append(UnitView(unit.title, tuple(entries)))
        return edition.theme.render(
            "index.html",
            page=edition.view(PATH, course.title),
            course=course,
            units=units,
            summary=summary(edition),
            guitar=guitar_words(course.settings.guitar),
            drafts=drafts_sentence(edition),
        )

    return Page(PATH, (), render)


def summary(edition: Edition) -> str:
    """Return what the book holds in one line: ``Three lessons, sixteen licks``."""
    licks = [p for lesson in edition.course.lessons for p in edition.pieces_in(lesson) if p.kind == "lick"]
    return capital(f"{count(len(edition.course.lessons), 'lesson')}, {count(len(licks), 'lick')}")


def drafts_sentence(edition: Edition) -> str:
    """Return which lessons are left out of the site, or nothing."""
    drafts = edition.course.drafts
    if not drafts:
        return ""
    verb = "is" if len(drafts) == 1 else "are"
    return capital(
        f"{count(len(drafts), 'lesson')} {verb} still being written: {listed([d.title for d in drafts])}."
    )
