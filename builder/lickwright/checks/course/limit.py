"""A limit that no rule can go by: it has no such name, or its value asks for nothing.

A limit is more than nothing, and a query begins below the error of the same name.

Why it matters: a threshold under a name that nothing reads changes nothing, and one that is turned about
finds fault with everything.

What to do: take the name and the kind of value from the page of the rule in the handbook.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from lickwright.checks.limits import LIMITS
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Look up every limit of the manifest."""
    course = survey.course
    places = dict(course.places)
    for name, value in course.settings.limits:
        span = places.get(f"limits.{name}", course.manifest.span(0, 0))
        if name in LIMITS:
            fault = _judge(name, value, survey.limits)
            if fault:
                yield Finding(
                    RULE.id, RULE.severity, fault, span, (), f"It is {LIMITS[name].value:g} of itself"
                )
        else:
            near = get_close_matches(name, LIMITS, n=1)
            hint = f"Did you mean {near[0]}?" if near else f"Limits are {', '.join(LIMITS)}"
            yield Finding(RULE.id, RULE.severity, f"no rule has a limit “{name}”", span, (), hint)


def _judge(name: str, value: float, limits: Mapping[str, float]) -> str:
    """What is the matter with a value, or nothing."""
    if value <= 0:
        return f"{name} is {value:g}, and a limit is more than nothing"
    error = limits.get(f"{name.removesuffix('-query')}-error", value)
    if name.endswith("-query") and value > error:
        return f"{name} is {value:g}, above its error at {error:g}"
    return ""


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
    title="A limit that no rule can go by",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 8: thresholds of the rules, by their names in the handbook"),
    good=(Example("A | 5:0 - 5:4 - 4:2 - 3:2 -", course=MANIFEST.format(name="stretch-query")),),
    bad=(
        Example("A | 5:0 - 5:4 - 4:2 - 3:2 -", ("120",), course=MANIFEST.format(name="strech-query")),
        Example(
            "A | 5:0 - 5:4 - 4:2 - 3:2 -",
            ("-5",),
            course=MANIFEST.format(name="stretch-query").replace("120", "-5"),
        ),
        Example(
            "A | 5:0 - 5:4 - 4:2 - 3:2 -",
            ("300",),
            course=MANIFEST.format(name="stretch-query").replace("120", "300"),
        ),
    ),
    survey=run,
)
