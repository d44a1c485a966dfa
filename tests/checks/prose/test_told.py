"""Sentences of a teacher about licks of his own and of the demo: the true are held, the false told."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from proofroom import Proofroom
from sentences import HERE, list_sentences, prove_each

from lickwright.checks.claims.claim import Differs, Held, Unresolved
from lickwright.checks.claims.ledger import Judged
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.survey import Survey
from lickwright.findings import Finding
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source

CONTENT = Path(__file__).parents[3] / "content"
LICKS = (HERE / "prose" / "told-licks.md").read_text("utf-8")
TRUE = list_sentences("prose/told-true.md")
FALSE = [line.split(": ", 1) for line in list_sentences("prose/told-false.md")]
SLIPS = [line.split(": ", 1) for line in list_sentences("prose/teacher-false.md")]
TEACHER = list_sentences("prose/teacher.md")


@pytest.fixture(scope="module")
def findings(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Finding]]:
    """What the proof finds in each sentence about the teacher's own licks."""
    sentences = [*TRUE, *(sentence for _, sentence in FALSE)]
    return prove_each(Proofroom(tmp_path_factory.mktemp("told")), LICKS, sentences)


@pytest.fixture(scope="module")
def survey() -> Survey:
    """The demo course."""
    course, _ = read_course(CONTENT)
    assert course is not None
    book, _ = resolve(course)
    limits = set_limits(())
    return Survey(course, book, limits, {piece.name: Subject(piece, limits) for piece in book.pieces})


@pytest.mark.parametrize("sentence", TRUE)
def test_a_true_sentence_stands(findings: dict[str, list[Finding]], sentence: str) -> None:
    """No error, no query, no note."""
    assert [finding.message for finding in findings[sentence]] == []


@pytest.mark.parametrize(("rule", "sentence"), FALSE)
def test_a_false_sentence_is_told(findings: dict[str, list[Finding]], rule: str, sentence: str) -> None:
    """By the rule of its kind, once; what else it says may be listed as not checked."""
    told = [f.rule for f in findings[sentence] if f.rule != "prose/not-checked"]
    assert told == [f"prose/{rule}"]


def judged(survey: Survey, sentence: str) -> tuple[Judged, ...]:
    """The claims of a sentence about the demo's licks, and what comes of them."""
    lesson, found = read_lesson(Source("lessons/a.md", f"# A\n\n{sentence}\n"), "a")
    assert found == ()
    units = (replace(survey.course.units[0], lessons=(lesson,), drafts=()),)
    return replace(survey, course=replace(survey.course, units=units)).claims


@pytest.mark.parametrize("sentence", TEACHER)
def test_a_teacher_is_believed(survey: Survey, sentence: str) -> None:
    """What is true of the demo's licks is held, in whatever words."""
    assert all(isinstance(one.verdict, Held) for one in judged(survey, sentence))


@pytest.mark.parametrize(("rule", "sentence"), SLIPS)
def test_a_teacher_who_nods_is_told(survey: Survey, rule: str, sentence: str) -> None:
    """What is false differs, by one rule; what nobody can tell is listed."""
    here = judged(survey, sentence)
    differing = [one.claim.kind for one in here if isinstance(one.verdict, Differs)]
    assert differing == ([] if rule == "not-checked" else [rule])
    assert differing or any(isinstance(one.verdict, Unresolved) for one in here)


def test_the_teacher_claims_something(survey: Survey) -> None:
    """More than sixty sentences, two claims in each and more."""
    claims = [len(judged(survey, sentence)) for sentence in TEACHER]
    assert len(TEACHER) > 60
    assert min(claims) > 0
    assert sum(claims) > 2 * len(TEACHER)
