"""The author's guide as pages: a small course of its own, every form shown typed and engraved."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

from markupsafe import Markup

from lickwright.model.course import Course, Lesson
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.markdown import Part, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of, rendition_of
from lickwright.pages.shelf import shelf
from lickwright.pages.weaving import LessonWeaver, plans_of
from lickwright.pages.theme import Theme
from lickwright.text import Source

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
        renditions = {line: rendition_of(plan, made) for line, plan in plans.items()}
        document = weave(lesson.source.text, LessonWeaver(guide, lesson, path, "", renditions, typed=True))
        glyphs = glyphs_of(score for r in renditions.values() for score in r.scores)
        return edition.theme.render(
            "guide.html",
            page=edition.view(path, lesson.title, music=True, glyphs=glyphs),
            course=edition.course,
            guide=GuideView(document.title or Markup.escape(lesson.title), document.deck, document.parts),
            shelf=shelf(path, contents(guide)),
        )

    return Page(path, tuple(order for plan in plans.values() for order in plan.orders), render)


def read_guide(theme: Theme, *, sound: bool) -> Edition | None:
    """Return the author's guide that travels with the builder, or None when there is none.

    Its pages are in the order of their file names.
    """
    folder = files("lickwright") / "guide"
    if not folder.is_dir():
        return None
    sources = [
        Source(f"{FOLDER}/{entry.name}", entry.read_text(encoding="utf-8"))
        for entry in sorted(folder.iterdir(), key=lambda entry: entry.name)
        if entry.name.endswith(".md")
    ]
    if not sources:
        return None
    course = guide_course(sources)
    return Edition(course, resolve(course)[0], theme, sound=sound, folder=FOLDER)


def guide_course(sources: Sequence[Source]) -> Course:
    raise NotImplementedError
