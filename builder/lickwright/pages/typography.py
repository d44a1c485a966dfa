"""Quotation marks and apostrophes as printed; English only, other languages keep what their author typed."""

from __future__ import annotations

import re
from dataclasses import replace

from lickwright.model.course import Course, Lesson

_OPENS = re.compile(r"(?<![^\s(\[\u2014\u2013\u2018\u201c])(['\"])(?=\S)")
_CURLY = {"'": "\N{LEFT SINGLE QUOTATION MARK}", '"': "\N{LEFT DOUBLE QUOTATION MARK}"}


def is_english(language: str) -> bool:
    """Whether a language tag is one of English: ``en``, ``en-GB``."""
    return language.lower().partition("-")[0] == "en"


def printed(text: str, language: str) -> str:
    """Return a title with curly quotation marks: ``Devil's Dream`` with its apostrophe."""
    if not is_english(language):
        return text
    text = _OPENS.sub(lambda found: _CURLY[found[1]], text)
    return text.replace("'", "\N{RIGHT SINGLE QUOTATION MARK}").replace(
        '"', "\N{RIGHT DOUBLE QUOTATION MARK}"
    )


def typeset(course: Course) -> Course:
    """Return the course with its titles as printed."""
    language = course.language

    def lesson(one: Lesson) -> Lesson:
        return replace(one, title=printed(one.title, language))

    units = tuple(
        replace(
            unit,
            title=printed(unit.title, language),
            lessons=tuple(map(lesson, unit.lessons)),
            drafts=tuple(map(lesson, unit.drafts)),
        )
        for unit in course.units
    )
    return replace(
        course, title=printed(course.title, language), author=printed(course.author, language), units=units
    )
