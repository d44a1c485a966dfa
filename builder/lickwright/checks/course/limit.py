"""A limit that no rule can go by: it has no such name, or its value asks for nothing.

A limit is more than nothing, and a query does not begin above the error of the same name, whichever of the
two the course sets.

Why it matters: a threshold under a name that nothing reads changes nothing, and one that is turned about
finds fault with everything.

What to do: take the name and the kind of value from the page of the rule in the handbook.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from difflib import get_close_matches

from lickwright.checks.limits import LIMITS
from lickwright.checks.rule import Example, Finding, Rule, Severity, Source
from lickwright.checks.survey import Survey


def run(survey: Survey) -> Iterator[Finding]:
    """Look up every limit of the manifest."""
    course = survey.course
    places = dict(course.places)
    given = {name for name, _ in course.settings.limits}
    for name, value in course.settings.limits:
        span = places.get(f"limits.{name}", course.manifest.span(0, 0))
        if name in LIMITS:
            fault = _judge(name, value, survey.limits, given)
            if fault:
                default = f"{LIMITS[name].value:g} {LIMITS[name].unit}"
                yield Finding(RULE.id, RULE.severity, fault, span, (), f"Where none is set, it is {default}")
        else:
            near = get_close_matches(name, LIMITS, n=1)
            hint = f"Did you mean {near[0]}?" if near else f"Limits are {', '.join(LIMITS)}"
            yield Finding(RULE.id, RULE.severity, f"no rule has a limit “{name}”", span, (), hint)


def _judge(name: str, value: float, limits: Mapping[str, float], given: Collection[str]) -> str:
    """What is the matter with a value, or nothing; where both of a pair are set, the query is told of."""
    if value <= 0:
        return f"{name} is {value:g}, and a limit is more than nothing"
    stem, _, kind = name.rpartition("-")
    query, error = f"{stem}-query", f"{stem}-error"
    if kind == "query" and value > limits.get(error, value):
        return f"{name} is {value:g}, above {error} at {limits[error]:g}"
    if kind == "error" and query not in given and value < limits.get(query, value):
        return f"{name} is {value:g}, below {query} at {limits[query]:g}"
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
        Example(
            "A | 5:0 - 5:4 - 4:2 - 3:2 -",
            ("100",),
            course=MANIFEST.format(name="stretch-error").replace("120", "100"),
        ),
    ),
    survey=run,
)
