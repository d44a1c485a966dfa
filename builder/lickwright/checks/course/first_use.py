"""A technique that a lick uses before any lesson speaks of it.

Lessons are taken in the order of study. Any word for the technique in the words of a lesson, or among the
tags of its licks, counts as speaking of it, from that lesson on. That it is explained later is told from
words that mean nothing else (a bell rings, a foot taps). What no lesson speaks of at all is taken for
known, but in a course for beginners.

Why it matters: the student meets a sign on the page, and the explanation three lessons later.

What to do: explain it where it first comes, or move the lick.
"""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.analysis.techniques import Use
from lickwright.checks.coverage import find_spoken
from lickwright.checks.lessons import list_published
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey
from lickwright.model.music import Piece

UNDERSTOOD = frozenset(
    {
        "chord",
        "spread chord",
        "two voices",
        "fingerpicking",
        "alternate picking",
        "pendulum picking",
        "economy picking",
        "hybrid picking",
        "cascade",
    }
)
"""What the page shows without a word, and ways of picking, which go by many words."""


def run(survey: Survey) -> Iterator[Finding]:
    """Hold the first use of every technique against the first word of it."""
    lessons = survey.course.lessons
    beginners = survey.course.settings.level == "beginner"
    if len(lessons) < 2 and not beginners:
        return
    first: dict[str, tuple[int, Piece, Use]] = {}
    for number, piece in list_published(survey.course, survey.book):
        subject = survey.subject(piece.name)
        if subject is not None:
            for name, use in subject.techniques.items():
                if name in UNDERSTOOD:
                    continue
                first.setdefault(name, (number, piece, use))
    spoken = find_spoken(survey.course)
    named = find_spoken(survey.course, loose=False)
    for name, (number, piece, use) in first.items():
        said = named.get(name)
        if spoken.get(name, number + 1) <= number:
            continue
        if name not in spoken and beginners:
            message = f"{name}: first used here, and no lesson speaks of it"
        elif said is not None:
            message = (
                f"{name}: first used here, in lesson {number + 1}, and first spoken of in lesson {said + 1},"
                f" “{lessons[said].title}”"
            )
        else:
            continue
        address = "" if use.address is None else str(use.address)
        hint = "Say what it is where it first comes, or move the lick"
        yield Finding(RULE.id, RULE.severity, message, use.span, (), hint, None, piece.name, address)


_MANIFEST = """[course]
title = "Example"
author = "An author"
key = "A major"

[[unit]]
title = "One"
lessons = ["example.md", "second.md"]
"""
_SLID = "# One\n\n{words}\n\n```lick example\nA | 5:0 - 4:2 s 4:4 3:2 - - -\n```"
_SECOND = (("lessons/second.md", "# Two\n\nToday we slide.\n"),)

RULE = Rule(
    id="course/first-use",
    title="A technique used before any lesson speaks of it",
    severity=Severity.QUERY,
    source=Source("common practice", "A method book explains a sign where it first stands"),
    good=(
        Example(_SLID.format(words="The slide keeps its finger."), course=_MANIFEST, files=_SECOND),
        Example(
            _SLID.format(words="Play."), course=_MANIFEST, files=(("lessons/second.md", "# Two\n\nRest.\n"),)
        ),
    ),
    bad=(Example(_SLID.format(words="Play."), ("4:4",), course=_MANIFEST, files=_SECOND),),
    survey=run,
)
