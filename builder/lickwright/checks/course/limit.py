"""A limit that no rule has.

Why it matters: a threshold under a name that nothing reads changes nothing, and nobody notices.

What to do: take the name from the page of the rule in the handbook.
"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from lickwright.checks.limits import LIMITS
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Look up every limit of the manifest."""
    course = survey.course
    places = dict(course.places)
    for name, _ in course.settings.limits:
        if name not in LIMITS:
            near = get_close_matches(name, LIMITS, n=1)
            span = places.get(f"limits.{name}", course.manifest.span(0, 0))
            hint = f"Did you mean {near[0]}?" if near else f"Limits are {', '.join(LIMITS)}"
            yield Finding(RULE.id, RULE.severity, f"no rule has a limit “{name}”", span, (), hint)


MANIFEST = """[course]
title = "Example"
author = "An author"

[[unit]]
title = "One"
lessons = ["example.md"]

[limits]
{name} = 120
"""

RULE = Rule(
    id="course/limit",
    title="A limit that no rule has",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8: thresholds of the rules, by their names in the handbook"),
    good=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -", course=MANIFEST.format(name="stretch-query")),),
    bad=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -", ("120",), course=MANIFEST.format(name="strech-query")),),
    survey=run,
)
