"""A lick that is much harder than anything before its lesson.

How hard a lick is, is summed from its speed, the shifts of the hand, the widest reach, the changes of
string and the number of techniques. The hardest of a lesson is held against the hardest of all lessons
before it; the first lessons are left alone.

Why it matters: a student who was fine yesterday is stuck today, and thinks it is his fault.

What to do: put an easier lick in between, or bring the lick later.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.difficulty import MEASURES
from lickwright.checks.coverage import Step
from lickwright.checks.lessons import list_published
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey

FEWEST = 3
"""Licks before a lesson that make a measure."""


def run(survey: Survey) -> Iterator[Finding]:
    """Take the lessons in turn."""
    jump = survey.limits["difficulty-jump"]
    before = 0
    hardest: Step | None = None
    for steps in _lessons(survey):
        peak = max(steps, key=lambda step: step.difficulty.score)
        if hardest is not None and before >= FEWEST:
            times = peak.difficulty.score / (hardest.difficulty.score or 1)
            piece = survey.book.piece(peak.lick)
            if times > jump and piece is not None:
                message = (
                    f"{times:.1f} times as hard as the hardest lick before its lesson, “{hardest.lick}”:"
                    f" {_say(peak, hardest)}"
                )
                hint = "Put an easier lick in between, or bring it later"
                yield Finding(RULE.id, RULE.severity, message, piece.span, (), hint, None, piece.name)
        before += len(steps)
        if hardest is None or peak.difficulty.score > hardest.difficulty.score:
            hardest = peak


def _lessons(survey: Survey) -> Iterator[list[Step]]:
    """The licks of each lesson that has some, measured."""
    steps: list[Step] = []
    at = -1
    for number, piece in list_published(survey.course, survey.book):
        subject = survey.subject(piece.name)
        if subject is None or survey.broken.get(piece.name):
            continue
        if number != at and steps:
            yield steps
            steps = []
        at = number
        steps.append(Step(piece.name, subject.difficulty))
    if steps:
        yield steps


def _say(peak: Step, before: Step) -> str:
    """What has grown most, in words."""
    now, then = peak.difficulty.parts, before.difficulty.parts
    measure = max(MEASURES, key=lambda each: now[each.name] - then[each.name])
    there, here = getattr(before.difficulty, measure.name), getattr(peak.difficulty, measure.name)
    return f"{measure.words.format(here)}, against {measure.words.format(there)}"


_MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"
tempo = {tempo}

[[unit]]
title = "One"
lessons = ["first.md", "example.md"]
"""
_EASY = "```lick {}\ntempo: 60\n\nA | 3:2 - {} - 3:2 - - -\n```\n"
_FIRST = (
    (
        "lessons/first.md",
        "# First\n\n" + "\n".join(map(_EASY.format, ("a", "b", "c"), ("2:2", "1:0", "2:5"))),
    ),
)
_LICK = "# Next\n\n```lick example\nA | 5:0 - 4:2 3:2 2:2 3:2 1:0 -\n```"

RULE = Rule(
    id="course/difficulty-jump",
    title="A lick much harder than anything before it",
    severity=Severity.NOTE,
    source=Source("own threshold", "The measures are those of common practice, their weights our own"),
    good=(Example(_LICK, course=_MANIFEST.format(tempo=60), files=_FIRST),),
    bad=(
        Example(
            _LICK,
            ("```lick example",),
            course=_MANIFEST.format(tempo=200),
            files=_FIRST,
        ),
    ),
    survey=run,
)
