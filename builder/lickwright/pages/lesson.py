"""The page of a lesson."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from lickwright.model.course import Lesson
from lickwright.pages.edition import Edition
from lickwright.pages.exchange_files import files_of
from lickwright.pages.facts import lesson_facts
from lickwright.pages.links import picture_path, relative
from lickwright.pages.markdown import Part, pictures_of, weave
from lickwright.pages.page import Made, Page
from lickwright.pages.practice import glyphs_of, rendition_of
from lickwright.pages.theme import SCRIPTS
from lickwright.pages.weaving import LessonWeaver, plans_of


@dataclass(frozen=True, slots=True)
class Neighbour:
    """The lesson before or after."""

    href: str
    number: int
    title: str


@dataclass(frozen=True, slots=True)
class LessonView:
    """A lesson as the template prints it."""

    number: int
    title: Markup
    deck: Markup
    facts: str
    playable: bool
    scored: bool
    parts: tuple[Part, ...]
    before: Neighbour | None
    next: Neighbour | None


def lesson_page(edition: Edition, lesson: Lesson) -> Page:
    """Return the page of a published lesson."""
    path = edition.paths[lesson.name]
    plans = plans_of(edition, lesson, views=True)
    number = edition.course.lessons.index(lesson) + 1
    before, following = neighbours(edition, lesson)

    def render(made: Made) -> str:
        renditions = {line: rendition_of(plan, made) for line, plan in plans.items()}
        weaver = LessonWeaver(edition, lesson, path, str(number), renditions)
        document = weave(lesson.source.text, weaver, edition.course.language)
        view = LessonView(
            number=number,
            title=document.title or Markup.escape(lesson.title),
            deck=document.deck,
            facts=lesson_facts(edition.pieces_in(lesson)),
            playable=weaver.playable,
            scored=any(rendition.scores for rendition in renditions.values()),
            parts=document.parts,
            before=before,
            next=following,
        )
        page = edition.view(
            path,
            f"{number}. {lesson.title}",
            scripts=SCRIPTS,
            glyphs=glyphs_of(score for r in renditions.values() for score in r.scores),
        )
        return edition.theme.render("lesson.html", page=page, course=edition.course, lesson=view)

    def files(made: Made) -> dict[str, bytes]:
        beside = (rendition_of(plan, made).beside for plan in plans.values())
        views = {file.path: file.body for found in beside for file in found.values()}
        ordered = tuple(order for plan in plans.values() for order in plan.files)
        return views | files_of(ordered, made)

    orders = tuple(order for plan in plans.values() for order in plan.orders)
    shown = (picture_path(source) for source in pictures_of(lesson.source.text))
    return Page(path, orders, render, tuple(picture for picture in shown if picture), files)


def neighbours(edition: Edition, lesson: Lesson) -> tuple[Neighbour | None, Neighbour | None]:
    """Return the lesson before and the lesson after, None at the ends."""
    lessons = edition.course.lessons
    at = lessons.index(lesson)

    def neighbour(place: int) -> Neighbour | None:
        if not 0 <= place < len(lessons):
            return None
        other = lessons[place]
        path = relative(edition.paths[other.name], edition.paths[lesson.name])
        return Neighbour(path, place + 1, other.title)

    return neighbour(at - 1), neighbour(at + 1)
