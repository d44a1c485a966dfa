"""A lick that does not say whose music it is, where others do.

A course that says so for all its licks (`source` under `[course]`), or nowhere, is left alone: what is said
nowhere is the author's own. A variation has the source of the lick it varies.

Why it matters: a melody that is not the author's needs its printed source or a licence, and the student
reads them on the page.

What to do: give the lick a `source`, or the course one that holds unless a lick says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.lessons import list_published
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.findings import Label


def run(survey: Survey) -> Iterator[Finding]:
    """Look for licks without a source among licks with one."""
    course = survey.course
    if any(name == "course.source" for name, _ in course.places):
        return
    written = course.licks
    names = [piece.name for _, piece in list_published(course, survey.book) if piece.name in written]
    stated = [name for name in names if written[name].source is not None]
    if not stated:
        return
    for name in names:
        lick = written[name]
        if lick.source is None and lick.vary is None:
            label = Label(written[stated[0]].place_of("source"), "said of another lick")
            hint = "Write source: own, or where it is printed; or give the course a source"
            yield Finding(
                RULE.id,
                RULE.severity,
                "the lick does not say whose music it is, others do",
                lick.span,
                (label,),
                hint,
                None,
                name,
            )


_ONE = "```lick {name}\n{source}A | 5:0 - 4:2 - 3:2 - - -\n```\n"
_OWN = _ONE.format(name="one", source="source: own\n\n")

RULE = Rule(
    id="course/no-source",
    title="A lick that does not say whose music it is",
    severity=Severity.NOTE,
    source=Source("common practice", "A publisher asks for the source of every piece"),
    good=(
        Example(f"{_OWN}\n```lick two\nvary: one\n1.2: 4:4\n```"),
        Example("```lick two\nA | 5:0 - 4:2 - 3:2 - - -\n```"),
    ),
    bad=(
        Example(
            f"{_OWN}\n```lick two\nA | 3:2 - 4:2 - 5:0 - - -\n```",
            ("```lick two",),
        ),
    ),
    survey=run,
)
