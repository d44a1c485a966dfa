"""The course does not hold what it promises.

``[promises]`` says how many licks, bars, lessons, keys, tunings, techniques, choruses or progressions the
course has. Drafts and excerpts do not count, a variation is a lick of its own; bars, keys, tunings and
techniques are those of the licks, bars as written and without pickups.

Why it matters: a student who paid for 48 licks in 5 keys counts them.

What to do: mend the number, or write what is missing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from lickwright.checks.lessons import list_published
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.model.music import Piece


def _licks(survey: Survey) -> list[Piece]:
    return [piece for _, piece in list_published(survey.course, survey.book)]


def _techniques(survey: Survey) -> int:
    subjects = (survey.subject(piece.name) for piece in _licks(survey))
    return len({name for subject in subjects if subject is not None for name in subject.techniques})


def _kind(survey: Survey, kind: str) -> int:
    drafts = {lesson.name for lesson in survey.course.drafts}
    return sum(p.piece.kind == kind and p.lesson not in drafts for p in survey.book.placed)


COUNTS: dict[str, Callable[[Survey], int]] = {
    "licks": lambda survey: len(_licks(survey)),
    "bars": lambda survey: sum(piece.music.counted_bars for piece in _licks(survey)),
    "tunings": lambda survey: len({piece.music.guitar.tuning for piece in _licks(survey)}),
    "techniques": _techniques,
    "keys": lambda survey: len({piece.music.key for piece in _licks(survey)}),
    "lessons": lambda survey: len(survey.course.lessons),
    "choruses": lambda survey: _kind(survey, "chorus"),
    "progressions": lambda survey: len(survey.book.grids),
}
"""How each thing that the manifest lets a course promise is counted."""


def run(survey: Survey) -> Iterator[Finding]:
    """Hold every promise against the count."""
    course = survey.course
    if any(survey.book.piece(name) is None for name in (*course.licks, *course.choruses)):
        return  # what could not be resolved has a finding of its own; nothing is counted yet
    places = dict(course.places)
    for name, promised in course.promises:
        held = COUNTS[name](survey)
        if held != promised:
            span = places.get(f"promises.{name}", course.manifest.span(0, 0))
            message = f"the course promises {promised} {name} and holds {held}"
            hint = f"Write {name} = {held}, or write what is missing"
            yield Finding(RULE.id, RULE.severity, message, span, (), hint)


MANIFEST = """[course]
title = "Example"
author = "An author"

[[unit]]
title = "One"
lessons = ["example.md"]

[promises]
licks = {licks}
"""

RULE = Rule(
    id="course/promise",
    title="A promise the course does not hold",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8: what the course says it holds; held against what it does"),
    good=(Example("key: A major\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -", course=MANIFEST.format(licks=1)),),
    bad=(Example("key: A major\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -", ("2",), course=MANIFEST.format(licks=2)),),
    survey=run,
)
