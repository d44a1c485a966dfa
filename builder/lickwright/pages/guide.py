"""The author's guide as pages: a small course of its own, every form shown typed and engraved."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.model.course import Lesson
from lickwright.pages.edition import Edition
from lickwright.pages.markdown import Part, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of
from lickwright.pages.shelf import shelf
from lickwright.pages.weaving import LessonWeaver, plans_of

FOLDER = "guide"


@dataclass(frozen=True, slots=True)
class GuideView:
    """A page of the guide as the template prints it."""

    title: Markup
    deck: Markup
    parts: tuple[Part, ...]


def contents(guide: Edition) -> tuple[tuple[str, str], ...]:
    """Return title and path of every page of the guide."""
    return tuple((lesson.title, guide.paths[lesson.name]) for lesson in guide.course.lessons)


def guide_page(edition: Edition, guide: Edition, lesson: Lesson) -> Page:
    """Return a page of the guide.

    Args:
        edition: The course beside which it stands.
        guide: The guide, with ``folder`` set to ``guide``.
        lesson: The page.
    """
    path = guide.paths[lesson.name]
    plans = plans_of(guide, lesson)

    def render(made: Made) -> str:
        document = weave(lesson.source.text, LessonWeaver(guide, lesson, path, "", plans, made, typed=True))
        glyphs = glyphs_of(tuple(plans.values()), made)
        return edition.theme.render(
            "guide.html",
            page=edition.view(path, lesson.title, music=True, glyphs=glyphs),
            course=edition.course,
            guide=GuideView(document.title or Markup.escape(lesson.title), document.deck, document.parts),
            shelf=shelf(path, contents(guide)),
        )

    return Page(path, tuple(order for plan in plans.values() for order in plan.orders), render)
