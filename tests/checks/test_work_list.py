"""The order in which findings are numbered."""

from __future__ import annotations

from lickwright.checks.work_list import in_order
from lickwright.findings import Finding, Severity
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Lesson, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.text import Source
from lickwright.theory.key import parse_key

ZULU, ALPHA, DRAFT, MANIFEST = (
    Source(path, "text\n" * 3)
    for path in ("lessons/zulu.md", "lessons/alpha.md", "lessons/b.md", "course.toml")
)
COURSE = Course(
    title="T",
    author="A",
    settings=Settings(parse_key("A major"), "straight", Tempo(100), Guitar(), Provenance("own")),
    units=(
        Unit(
            "U",
            (Lesson("zulu", "Zulu", ZULU), Lesson("alpha", "Alpha", ALPHA)),
            (Lesson("b", "B", DRAFT, draft=True),),
        ),
    ),
)


def finding(source: Source, severity: Severity, start: int = 0) -> Finding:
    return Finding("hands/stretch", severity, "far", source.span(start, start + 1))


def test_the_gravest_first_then_the_order_of_study() -> None:
    """Not the names of files but the lessons as they are studied, the manifest before, drafts behind them."""
    told = [
        finding(ALPHA, Severity.ERROR),
        finding(DRAFT, Severity.ERROR),
        finding(ZULU, Severity.NOTE),
        finding(ZULU, Severity.ERROR, 6),
        finding(ZULU, Severity.ERROR, 2),
        finding(MANIFEST, Severity.ERROR),
    ]
    order = in_order(COURSE, told)
    assert order == tuple(told[k] for k in (5, 4, 3, 0, 1, 2))
    assert in_order(COURSE, reversed(told)) == order


def test_without_a_course() -> None:
    """Files go by their names."""
    told = [finding(ZULU, Severity.QUERY), finding(ALPHA, Severity.QUERY), finding(ZULU, Severity.ERROR)]
    assert in_order(None, told) == (told[2], told[1], told[0])
