"""A lesson that has changed since it was signed.

Somebody proofread the lesson and passed it; its music or its words are not the same any more.

Why it matters: a late mend is where new slips come from, and nobody has read it since.

What to do: read what has changed, then sign the lesson again: ``lickwright sign LESSON COURSE``.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.signing import list_sign_offs
from lickwright.checks.survey import Survey
from lickwright.findings import Label
from lickwright.model.course import Lesson
from lickwright.text import Span


def run(survey: Survey) -> Iterator[Finding]:
    """Compare every signature with the lesson as it is."""
    if not survey.course.signatures:
        return
    for each in list_sign_offs(survey.course, survey.book):
        if each.state == "changed since signed" and each.signature is not None:
            yield Finding(
                RULE.id,
                RULE.severity,
                f"“{each.lesson.name}” has changed since {each.signature.by} signed it",
                each.signature.span,
                (Label(_first_line(each.lesson), "the lesson"),),
                f"Read it again, then: lickwright sign {each.lesson.name} COURSE, the folder of this course",
            )


def _first_line(lesson: Lesson) -> Span:
    source = lesson.source
    start = len(source.text) - len(source.text.lstrip())
    return source.span(start, start + len(source.text[start:].partition("\n")[0]))


_LESSON = "# Example\n\n```lick example\nA7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:4\n```\n"
RULE = Rule(
    id="course/changed-since-signed",
    title="A lesson that has changed since it was signed",
    severity=Severity.QUERY,
    source=Source("common practice", "A proof that has been passed is passed as it was"),
    good=(Example(_LESSON, files=(("proofed.toml", '[example]\nby = "Ann"\nmark = "7581251be5bc"\n'),)),),
    bad=(
        Example(
            _LESSON,
            marks=("example",),
            files=(("proofed.toml", '[example]\nby = "Ann"\nmark = "0123456789ab"\n'),),
        ),
    ),
    survey=run,
    stettable=False,
)
