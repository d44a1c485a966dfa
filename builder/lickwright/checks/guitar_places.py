"""Where a capo or tuning is written, for the two rules that accuse one."""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.checks.guitar_readings import Misread
from lickwright.checks.rule import Finding, Rule
from lickwright.checks.survey import Survey
from lickwright.findings import Edit, Fix
from lickwright.text import Span


def accuse(survey: Survey, rule: Rule, misread: Misread, message: str, value: str) -> Finding:
    """Return the finding at the field of the lick, at the manifest's key, or at the head of the lick.

    Args:
        survey: The course.
        rule: Of capo or tuning.
        misread: The lick.
        message: What is found.
        value: What the field should say, as an author writes it.
    """
    field, name = misread.field, misread.name
    if misread.course:
        place = dict(survey.course.places).get(f"guitar.{field}")
        written = f'"{value}"' if field == "tuning" else value
        head = survey.course.manifest.span(0, 0)
        hint = f"Write {field} = {written} in the manifest, or look at the frets"
    else:
        place = _own_place(survey, name, field)
        written, head = value, survey.course.licks[name].span
        hint = f"Write {field}: {value}, or look at the frets"
    fix = None if place is None else Fix(f"{field} {value}", (Edit(place, written),))
    return Finding(rule.id, rule.severity, message, place or head, (), hint, fix, name)


def _own_place(survey: Survey, name: str, field: str) -> Span | None:
    return dict(survey.course.licks[name].places).get(field)


def list_accused(survey: Survey, field: str) -> Iterator[Misread]:
    """The licks of whose capo, or of whose tuning, the rows tell otherwise."""
    return (misread for misread in survey.misread if misread.field == field)
