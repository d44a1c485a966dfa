"""Slips of the pen in the demo course's own sentences: each is found by its rule, at its own words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from lickwright.checks.claims.claim import Differs
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.model.course import Course
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source

CONTENT = Path(__file__).parents[3] / "content"

# lesson | as it stands | the slip | rule | the words that are marked
SLIPS = """
gangplank | [A, B, C, C sharp](lick:gangplank@4.1-4.4) | [A, B, D, C sharp](lick:gangplank@4.1-4.4) | pitch | D
tuning-up | [A, C sharp, E](lick:landing-lights@1.1-1.3) | [A, C sharp, F](lick:landing-lights@1.1-1.3) | pitch | F
gangplank | [open D](lick:gangplank@5.1) | [open G](lick:gangplank@5.1) | pitch | open G
gangplank | [D, D sharp, E](lick:gangplank@6.4-7.1) | [D, E flat, E](lick:gangplank@6.4-7.1) | spelling | E flat
tuning-up | [the third of the D chord | [the fifth of the D chord | degree | fifth
tuning-up | [flat seven](lick:landing-lights@3.2) | [flat nine](lick:landing-lights@3.2) | degree | flat nine
tuning-up | [C sharp, the third](lick:high-water@4.1) | [C sharp, the fifth](lick:high-water@4.1) | degree | fifth
gangplank | bar 3 is the flat seven of A7 | bar 3 is the major seventh of A7 | degree | major seventh
devils-dream | [D on the second string](lick | [D on the third string](lick | string | third string
devils-dream | [the open second string] | [the open first string] | string | open first string
devils-dream | [F sharp on the first](lick | [F sharp on the third](lick | string | third
gangplank | [D at the third fret](lick | [D at the second fret](lick | fret | second fret
tuning-up | [B at the fourth](lick | [B at the fifth](lick | fret | fifth
tuning-up | the little finger plays | the ring finger plays | finger | ring finger
tuning-up | [an upstroke](lick:landing-lights@1.2) | [a downstroke](lick:landing-lights@1.2) | stroke | downstroke
devils-dream | [a downstroke](lick:devils-dream@1.1) | [an upstroke](lick:devils-dream@1.1) | stroke | upstroke
tuning-up | [slides from C sharp to E] | [is hammered from C sharp to E] | technique | hammered
gangplank | [The hammer-on from C to C sharp] | [The pull-off from C to C sharp] | technique | pull-off
pilots-curl | [a quarter-tone curl](lick:pilots | [a half-step curl](lick:pilots | bend-target | half-step curl
pilots-curl | [whole-step bend from A to B] | [half-step bend from A to B] | bend-target | half-step bend
devils-dream | [Its four eighth notes] | [Its five eighth notes] | count | five eighth notes
devils-dream | second half of bar 7] | second half of bar 6] | bar | bar 6
pilots-curl | [the B7 chord](lick | [the F sharp chord](lick | chord | F sharp chord
devils-dream | stay on F sharp for the whole | stay on E flat for the whole | mention | E flat
"""  # noqa: E501  (a table reads by its rows)


@pytest.fixture(scope="module")
def survey() -> Survey:
    """The course resolved once; each slip is a lesson read anew."""
    course, _ = read_course(CONTENT)
    assert course is not None
    book, _ = resolve(course)
    limits = set_limits(())
    return Survey(course, book, limits, {piece.name: Subject(piece, limits) for piece in book.pieces})


def differing(survey: Survey, name: str, text: str) -> list[tuple[str, str]]:
    """The rule and the marked words of what differs in a lesson."""
    lesson, _ = read_lesson(Source(f"lessons/{name}.md", text), name)
    units = (replace(survey.course.units[0], lessons=(lesson,), drafts=()),)
    course: Course = replace(survey.course, units=units)
    claims = replace(survey, course=course).claims
    return [
        (one.claim.kind, one.claim.span(one.verdict.term).text)
        for one in claims
        if isinstance(one.verdict, Differs)
    ]


def _slips() -> list[list[str]]:
    return [[cell.strip() for cell in row.split(" | ")] for row in SLIPS.strip().splitlines()]


@pytest.mark.parametrize(
    ("name", "right", "slip", "rule", "words"),
    [pytest.param(*row, id=f"{row[3]}: {row[2]}") for row in _slips()],
)
def test_a_slip_is_found(survey: Survey, name: str, right: str, slip: str, rule: str, words: str) -> None:
    """One word changed gives one finding, of the rule that the word belongs to, at the word."""
    text = (CONTENT / "lessons" / f"{name}.md").read_text("utf-8")
    assert text.count(right) == 1
    assert differing(survey, name, text.replace(right, slip)) == [(rule, words)]


def test_the_lessons_as_they_stand_agree(survey: Survey) -> None:
    """Hundreds of claims are made, and all are held."""
    assert len(survey.claims) > 300
    assert [one for one in survey.claims if isinstance(one.verdict, Differs)] == []
