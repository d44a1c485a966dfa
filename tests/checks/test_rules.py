"""Every rule does what its own examples say, and nothing but a rule's own function finds its fault."""

from __future__ import annotations

import sys
from dataclasses import replace

import pytest
from proofroom import Proofroom, only, told

from lickwright.checks.catalogue import docstring, rules
from lickwright.checks.course.promise import COUNTS
from lickwright.checks.rule import Example, Rule
from lickwright.model.timeline.faults import FAULTS
from lickwright.reading.manifest_keys import PROMISES
from lickwright.reading.rules import RULES

REGISTERED = {**RULES, **FAULTS}
OWN = {rule.id for rule in rules().values() if rule.run or rule.survey}
BY_PROOF = {"stet/stale", "stet/unused"}


def _cases(kind: str) -> list[object]:
    return [
        pytest.param(rule, example, id=f"{rule.id}-{number}")
        for rule in rules().values()
        for number, example in enumerate(getattr(rule, kind), 1)
    ]


@pytest.mark.parametrize(("rule", "example"), _cases("good"))
def test_good_examples_give_nothing(room: Proofroom, rule: Rule, example: Example) -> None:
    """A good example gives no finding at all, of whatever rule or severity."""
    assert told(room.prove(example)) == [], rule.id


@pytest.mark.parametrize(("rule", "example"), _cases("bad"))
def test_bad_examples_give_their_rule(room: Proofroom, rule: Rule, example: Example) -> None:
    """A bad example gives exactly its own rule, at exactly the marked texts."""
    assert example.marks
    proof = room.prove(example)
    assert told(proof) == sorted((rule.id, mark) for mark in example.marks)
    assert all(finding.severity <= rule.severity for finding in proof.findings)


@pytest.mark.parametrize("rule", [pytest.param(rules()[name], id=name) for name in sorted(OWN)])
def test_a_rule_turned_off_is_missed(room: Proofroom, rule: Rule, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the rule its bad examples do not give its finding: nothing else stands in for it."""
    off = {**rules(), rule.id: replace(rule, run=None, survey=None)}
    for module in ("proof", "subject"):
        monkeypatch.setattr(sys.modules[f"lickwright.checks.{module}"], "rules", lambda: off)
    for example in rule.bad:
        assert rule.id not in {name for name, _ in told(room.prove(example))}


@pytest.mark.parametrize("name", sorted(REGISTERED))
def test_what_reading_and_resolving_find_has_a_page(name: str) -> None:
    """Every fault of the reader and of the timeline is a rule here, with the same title and severity."""
    rule = rules()[name]
    assert (rule.title, rule.severity) == (REGISTERED[name].title, REGISTERED[name].severity)


def test_every_rule_has_a_finder() -> None:
    """A rule is found by its own function, by the reader or the timeline, or by the proof itself."""
    assert set(rules()) == OWN | set(REGISTERED) | BY_PROOF
    assert OWN.isdisjoint(REGISTERED)


@pytest.mark.parametrize("rule", [pytest.param(rule, id=name) for name, rule in rules().items()])
def test_every_rule_is_explained(rule: Rule) -> None:
    """A rule says what it finds, why it matters and what to do, and has examples of both kinds."""
    text = docstring(rule)
    assert text.index("Why it matters:") < text.index("What to do:")
    assert rule.good
    assert rule.bad
    assert rule.source.text


def test_every_promise_is_counted() -> None:
    """What the manifest lets a course promise and what the rule counts are the same."""
    assert set(COUNTS) == set(PROMISES)


def test_a_join_to_another_string_says_so(room: Proofroom) -> None:
    """A hammer-on to a string that is not sounding is not told that nothing moved."""
    finding = only(room.prove("A7 | 5:4 h 4:2 4:4 - 5:0 - - -"))
    assert finding.rule == "hands/join-stands-still"
    assert finding.message == "“h” leads to another string, where nothing sounds"


def test_two_fingers_reach(room: Proofroom) -> None:
    """One hand reaches; two fingers reach."""
    text = "F | 4:1+3:4 - - - 5:0 - - -\n  lh | 12 0"
    assert any(
        "fingers 1 and 2 reach easily" in f.message or "fingers 1 and 2 can reach" in f.message
        for f in room.prove(text).findings
    )
