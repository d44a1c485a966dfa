"""A part of the proof, and what stands counted by rule."""

from __future__ import annotations

from lickwright.checks.proof import Proof
from lickwright.checks.selection import list_paths, select
from lickwright.checks.stets import Standing
from lickwright.checks.tally import Tally, count_rules
from lickwright.findings import Finding, Label, Severity
from lickwright.model.fields import Stet
from lickwright.text import Source


def find(rule: str, lesson: str = "a") -> Finding:
    """Return a query in a lesson."""
    return Finding(rule, Severity.QUERY, "said", Source(f"lessons/{lesson}.md", "x").span(0, 1))


def stand(finding: Finding) -> Standing:
    """Let a finding stand."""
    return Standing(finding, Stet(finding.rule, "meant"), "")


WHOLE = Proof(
    (find("harmony/unexplained"), find("harmony/shifted-chord", "b"), find("hands/stretch", "b")),
    (
        stand(find("hands/stretch")),
        stand(find("hands/stretch", "b")),
        stand(find("harmony/unexplained", "b")),
    ),
)


def test_groups_rules_and_lessons() -> None:
    """A group takes all its rules; a lesson is named with or without its suffix; both together narrow."""
    assert select(WHOLE) == WHOLE
    assert [f.rule for f in select(WHOLE, ["harmony"]).findings] == [
        "harmony/unexplained",
        "harmony/shifted-chord",
    ]
    assert [f.rule for f in select(WHOLE, ["hands/stretch"], ["b.md"]).findings] == ["hands/stretch"]
    assert len(select(WHOLE, ["hands/stretch"], ["b"]).standing) == 1
    assert select(WHOLE, ["hand"]).findings == ()


def test_a_rule_that_stands_more_often_than_not() -> None:
    """Two of three is more than half, one of two is not; one of one speaks for itself only."""
    assert count_rules(WHOLE.findings, WHOLE.standing) == (
        Tally("hands/stretch", 3, 2),
        Tally("harmony/shifted-chord", 1, 0),
        Tally("harmony/unexplained", 2, 1),
    )
    assert [each.to_reconsider for each in count_rules(WHOLE.findings, WHOLE.standing)] == [
        True,
        False,
        False,
    ]
    assert not Tally("picking/pendulum", 1, 1).to_reconsider
    assert Tally("picking/pendulum", 2, 2).to_reconsider


def test_a_finding_outside_the_lessons_is_of_those_it_shows() -> None:
    """A signature shows its lesson; what is in a lesson is of that one alone, whatever it shows."""
    lesson = Source("lessons/a.md", "x").span(0, 1)
    signature = Source("proofed.toml", "x").span(0, 1)
    changed = Finding("course/changed-since-signed", Severity.QUERY, "said", signature, (Label(lesson, ""),))
    promise = Finding("course/promise", Severity.ERROR, "said", Source("course.toml", "x").span(0, 1))
    pair = Finding(
        "course/near-duplicate", Severity.NOTE, "said", find("x/y", "b").span, (Label(lesson, ""),)
    )
    whole = Proof((changed, promise, pair))
    assert select(whole, lessons=["a"]).findings == (changed,)
    assert select(whole, lessons=["b"]).findings == (pair,)
    assert list_paths(promise) == frozenset()
