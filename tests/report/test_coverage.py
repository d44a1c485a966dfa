"""The matrix of a course as text."""

from __future__ import annotations

from lickwright.analysis.difficulty import Difficulty
from lickwright.checks.coverage import Coverage, Row, Step
from lickwright.report.coverage import render_coverage

EASY = Difficulty(4.0, 0, 0.0, 0.0, 0, 1, 0, 1)
COVERAGE = Coverage(
    ("Gangplank", "Fog\x1b[2J bells"),
    (
        Row("technique", "hammer-on", (2, 0), 1),
        Row("technique", "palm mute", (0, 3)),
        Row("technique", "slide", (1, 12), 0),
        Row("key", "A major", (2, 12)),
    ),
    (Step("a", EASY), None),
)
EXPECTED = """\
Techniques      1   2
hammer-on       2   ·  spoken of from 2
palm mute       ·   3  not spoken of
slide           1  12

Keys            1   2
A major         2  12

Difficulty      1   2
hardest lick  1.0   ·

"""


def test_the_matrix_as_text() -> None:
    """Columns under each other, a dot for none, what is out of the common at the end of the row."""
    text = render_coverage(COVERAGE)
    assert text.startswith(EXPECTED)
    assert "\x1b" not in text
    assert text.splitlines()[-2] == "  1  Gangplank"


def test_a_course_without_lessons_has_none() -> None:
    """No table, no titles."""
    assert render_coverage(Coverage((), (), ())) == ""
