"""Which words of a sentence claim what, and of which link; the fixture reads as documentation."""

from __future__ import annotations

import pytest
from sentences import Case, load_cases

from lickwright.checks.claims.attachment import find_claims
from lickwright.checks.claims.claim import Claim
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source


def say(claim: Claim) -> str:
    """A claim as the fixture writes it."""
    words = ", ".join(term.text for term in claim.terms)
    of = f" (of {claim.about.text})" if claim.about is not None else ""
    beside = f" beside {claim.beside.text}" if claim.beside is not None else ""
    outside = "" if claim.inside else ", outside"
    reading = f", A as the {claim.reading}" if claim.reading else ""
    return f"{claim.link.at or 'all'} {claim.kind}: {words}{of}{beside}{outside}{reading}"


def claims_of(text: str) -> list[str]:
    """All claims of a text but those about spelling, which repeat those about pitch."""
    lesson, findings = read_lesson(Source("lessons/a.md", text), "a")
    assert findings == ()
    passages: dict[int, list] = {}
    for link in lesson.links:
        passages.setdefault(id(link.passage), []).append(link)
    claims = [c for links in passages.values() for c in find_claims(links[0].passage, links)]
    return [say(claim) for claim in claims if claim.kind != "spelling"]


@pytest.mark.parametrize("case", [pytest.param(c, id=c.title) for c in load_cases("claims/claims.md")])
def test_a_sentence_claims_what_it_says(case: Case) -> None:
    """Each sentence makes exactly the claims under it."""
    assert sorted(claims_of(case.sentence)) == sorted(case.expected)


def test_every_spelling_is_asked_where_a_pitch_is() -> None:
    """A name is held against the sound and against the staff."""
    lesson, _ = read_lesson(Source("lessons/a.md", "[A sharp](lick:one@1.1)"), "a")
    kinds = [claim.kind for claim in find_claims(lesson.links[0].passage, lesson.links)]
    assert kinds == ["pitch", "spelling"]
