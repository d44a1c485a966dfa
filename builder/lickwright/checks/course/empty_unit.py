"""A unit without a lesson.

Why it matters: its title stands in the list of lessons with nothing under it.

What to do: list its lessons, or take the unit out.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Look for units that list nothing; files that are missing are told elsewhere."""
    places = dict(survey.course.places)
    for number, unit in enumerate(survey.course.units):
        span = places.get(f"unit.{number}.lessons")
        if unit.lessons or span is None or span.text.strip("[] \t\n"):
            continue
        only = " but drafts" if unit.drafts else ""
        severity = Severity.NOTE if unit.drafts else RULE.severity
        message = f"the unit “{unit.title}” has no lessons{only}"
        yield Finding(RULE.id, severity, message, span, (), "List its lessons, or take the unit out")


_MANIFEST = """[course]
title = "Example"
author = "An author"

[[unit]]
title = "One"
lessons = ["example.md"]

[[unit]]
title = "Two"
lessons = {lessons}
"""
_SECOND = (("lessons/second.md", "# Two\n\nWords.\n"),)

RULE = Rule(
    id="course/empty-unit",
    title="A unit without a lesson",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 8, The course"),
    good=(Example("# One\n\nWords.", course=_MANIFEST.format(lessons='["second.md"]'), files=_SECOND),),
    bad=(Example("# One\n\nWords.", ("[]",), course=_MANIFEST.format(lessons="[]")),),
    survey=run,
    stettable=False,
)
