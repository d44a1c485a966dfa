"""The author's guide as pages: a small course of its own, every form shown typed and engraved."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from markupsafe import Markup

from lickwright.model.course import Lesson
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.lesson import Neighbour, neighbours
from lickwright.pages.links import relative
from lickwright.pages.markdown import Part, deck_of, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of, rendition_of
from lickwright.pages.shelf import GUIDE, Entry, Group, shelf
from lickwright.pages.theme import SCRIPTS, Theme
from lickwright.pages.weaving import LessonWeaver, plans_of
from lickwright.reading.course import read_course

FOLDER = "guide"


@dataclass(frozen=True, slots=True)
class GuideView:
    """A page of the guide as the template prints it."""

    title: Markup
    deck: Markup
    parts: tuple[Part, ...]
    before: Neighbour | None
    next: Neighbour | None


def guide_pages(edition: Edition, guide: Edition) -> tuple[Page, ...]:
    """Return the contents of the guide and its pages.

    Args:
        edition: The course beside which it stands.
        guide: The guide, with ``folder`` set to ``guide``.
    """
    pages = (_guide_page(edition, guide, lesson) for lesson in guide.course.lessons)
    return (_contents(edition, guide), *pages)


def _contents(edition: Edition, guide: Edition) -> Page:
    def entry(lesson: Lesson) -> Entry:
        href = relative(guide.paths[lesson.name], GUIDE)
        return Entry(lesson.title, href, deck=deck_of(lesson.source.text))

    def render(_: Made) -> str:
        groups = [
            Group(unit.title, tuple(entry(lesson) for lesson in unit.lessons)) for unit in guide.course.units
        ]
        return edition.theme.render(
            "contents.html",
            page=edition.view(GUIDE, guide.course.title),
            course=edition.course,
            deck="How a course is written, every form with its engraving",
            groups=groups,
            shelf=shelf(GUIDE, guide=True),
        )

    return Page(GUIDE, (), render)


def _guide_page(edition: Edition, guide: Edition, lesson: Lesson) -> Page:
    path = guide.paths[lesson.name]
    plans = plans_of(guide, lesson)
    before, following = neighbours(guide, lesson)

    def render(made: Made) -> str:
        renditions = {line: rendition_of(plan, made) for line, plan in plans.items()}
        document = weave(lesson.source.text, LessonWeaver(guide, lesson, path, "", renditions, typed=True))
        glyphs = glyphs_of(score for r in renditions.values() for score in r.scores)
        return edition.theme.render(
            "guide.html",
            page=edition.view(path, lesson.title, scripts=SCRIPTS, glyphs=glyphs),
            course=edition.course,
            guide=GuideView(
                document.title or Markup.escape(lesson.title),
                document.deck,
                document.parts,
                before,
                following,
            ),
            shelf=shelf(path, guide=True),
        )

    return Page(path, tuple(order for plan in plans.values() for order in plan.orders), render)


def has_guide() -> bool:
    """True when the author's guide travels with the builder."""
    return (_folder() / "course.toml").is_file()


def _folder() -> Path:
    return Path(str(files("lickwright") / FOLDER))


def read_guide(theme: Theme) -> Edition | None:
    """Return the author's guide that travels with the builder, or None when there is none.

    It is a course like any other, with its own manifest and the lessons in its order. Beside
    another course it has no sound: an author's publish is not to wait for our examples.
    """
    course, _ = read_course(_folder()) if has_guide() else (None, ())
    if course is None:
        return None
    return Edition(course, resolve(course)[0], theme, sound=False, folder=FOLDER)
