"""A lesson without a heading, where the others have one.

Its title in the list of lessons is then made of the name of its file.

Why it matters: the student looks for a lesson by its title.

What to do: begin it with a heading: `# Walking the gangplank`.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.lessons import has_heading
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Look for headings; a course that has none anywhere is left alone."""
    lessons = [
        lesson for lesson in (*survey.course.lessons, *survey.course.drafts) if lesson.source.text.strip()
    ]
    bare = [lesson for lesson in lessons if not has_heading(lesson)]
    if len(bare) == len(lessons):
        return
    for lesson in bare:
        text = lesson.source.text
        start = len(text) - len(text.lstrip())
        span = lesson.source.span(start, start + len(text.lstrip().split("\n")[0].rstrip()))
        hint = "Begin it with a heading: # and the title"
        message = f"the lesson has no heading: “{lesson.title}”, after its file, is its title"
        yield Finding(RULE.id, RULE.severity, message, span, (), hint)


_MANIFEST = """[course]
title = "Example"
author = "An author"

[[unit]]
title = "One"
lessons = ["example.md", "second.md"]
"""
_SECOND = (("lessons/second.md", "# Two\n\nWords.\n"),)

RULE = Rule(
    id="course/no-heading",
    title="A lesson without a heading",
    severity=Severity.QUERY,
    source=Source("language contract", "Section 8: a lesson's title is its first heading"),
    good=(
        Example("# One\n\nWords.", course=_MANIFEST, files=_SECOND),
        Example("#\n\nOne\n===\n\nWords.", course=_MANIFEST, files=_SECOND),
    ),
    bad=(Example("```text\n# no heading\n```\n\nWords.", ("```text",), course=_MANIFEST, files=_SECOND),),
    survey=run,
    stettable=False,
)
