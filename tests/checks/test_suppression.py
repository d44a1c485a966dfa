"""One cause, one finding."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only, told

from lickwright.checks.catalogue import rules
from lickwright.checks.suppression import CAUSES, keep_causes
from lickwright.findings import Finding, Severity
from lickwright.text import Source

SOURCE = Source("lessons/one.md", "A | 5:0 - 5:4 - 4:2 - 3:2 -")


def _finding(rule: str, address: str, start: int = 0, end: int = 1) -> Finding:
    return Finding(rule, Severity.ERROR, "said", SOURCE.span(start, end), lick="one", address=address)


@pytest.mark.parametrize(
    ("cause", "effect", "kept"),
    [
        (("rhythm/bar-length", "2"), ("harmony/unexplained", "2.3"), False),
        (("rhythm/bar-length", "2"), ("harmony/unexplained", "3.1"), True),
        (("rhythm/bar-length", "2"), ("hands/range", "2.3"), True),
        (("hands/one-note-a-string", "1.1"), ("hands/stretch", "1.1"), False),
        (("hands/one-note-a-string", "1.1"), ("hands/stretch", "1.2"), True),
        (("witness/names", "1.2"), ("witness/degrees", "1.2"), False),
        (("rhythm/step", ""), ("rhythm/bar-length", "4"), False),
    ],
)
def test_reach_of_a_cause(cause: tuple[str, str], effect: tuple[str, str], kept: bool) -> None:
    """A cause silences its effects in its sound, its bar or its piece, whichever comes first."""
    one, other = _finding(*cause), _finding(*effect, 4, 7)
    for order in ((one, other), (other, one)):
        assert (other in keep_causes(order)) is kept
        assert one in keep_causes(order)


def test_two_faults_of_one_rule_both_stay() -> None:
    """A rule does not silence itself."""
    both = (_finding("hands/one-note-a-string", "1.1"), _finding("hands/one-note-a-string", "1.1", 4, 7))
    assert keep_causes(both) == both


def test_a_fault_seen_twice_is_told_once() -> None:
    """Text and resolved music may both show an unclosed repeat; the first word counts."""
    first, second = _finding("syntax/repeat", "", 0, 9), _finding("syntax/repeat", "1", 0, 2)
    assert keep_causes((first, second)) == (first,)


def test_every_cause_is_a_rule() -> None:
    """The table names only rules that exist, on both sides."""
    assert {cause.rule for cause in CAUSES} <= set(rules())
    plain = {name for cause in CAUSES for name in cause.silences if "*" not in name}
    assert plain <= set(rules())


SLIPPED = "A7 | 5:0 5:4 4:2 4:4 4:2 5:0 5:4\n  rh | d u d u d u d u\n  lh | 0 4 2 4 2 4 0 4\n"


def test_a_dropped_slot_is_told_once(room: Proofroom) -> None:
    """Rows that agree with each other and not with a bar too short accuse the bar, not each row."""
    finding = only(room.prove(SLIPPED))
    assert finding.rule == "rhythm/bar-length"
    assert finding.help == "the rows have 8 entries for 7 sounds: most likely a sound is missing"


def test_rows_that_differ_are_each_told(room: Proofroom) -> None:
    """A row that is miscounted by itself stays a finding beside the bar's."""
    proof = room.prove(SLIPPED.replace("0 4 2 4 2 4 0 4", "0 4 2 4 2 4"))
    assert [rule for rule, _ in told(proof)] == ["rhythm/bar-length", "syntax/row-count", "syntax/row-count"]


def test_a_chord_that_cannot_be_read_is_told_beside_a_wrong_sum(room: Proofroom) -> None:
    """The length of a bar does not explain a slip in its margin."""
    proof = room.prove("A | 5:0 - 5:4 - 4:2 - 3:2 -\nA7zz | 5:0 - 5:4 - 4:2 - 3:2")
    assert {"harmony/chord-symbol", "rhythm/bar-length"} <= {rule for rule, _ in told(proof)}


@pytest.mark.parametrize(
    ("field", "rule"),
    [
        ("step: 1/7", "syntax/field-value"),
        ("stpe: 1/16", "syntax/unknown-field"),
        ("meter: 9/5", "syntax/field-value"),
    ],
)
def test_a_field_that_sets_the_length_of_bars_is_told_alone(room: Proofroom, field: str, rule: str) -> None:
    """Where the step or the meter could not be read, no bar adds up, and that is one fault."""
    assert only(room.prove(f"{field}\n\nA | 3:2 3:4 3:2 3:4\nA | 3:2 3:4 3:2")).rule == rule


def test_another_field_hides_no_bar(room: Proofroom) -> None:
    """A tempo that cannot be read says nothing of the bars."""
    found = [rule for rule, _ in told(room.prove("tempo: fast\n\nA | 3:2 3:4 3:2 3:4"))]
    assert found == ["rhythm/bar-length", "syntax/field-value"]
