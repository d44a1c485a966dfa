"""Correct playing is left alone, and each planted fault is found."""

from __future__ import annotations

import re

import pytest
from proofroom import Proofroom, only, phrases, told

EXPECTED = re.compile(r'^; (\S+) (\w+) "(.*)"$', re.MULTILINE)


@pytest.mark.parametrize(("name", "text"), [pytest.param(*p, id=p[0]) for p in phrases("correct")])
def test_correct_phrases_are_left_alone(room: Proofroom, name: str, text: str) -> None:
    """Idiomatic playing gives no finding."""
    assert told(room.prove(text)) == [], name


@pytest.mark.parametrize(("name", "text"), [pytest.param(*p, id=p[0]) for p in phrases("faulty")])
def test_faults_are_found(room: Proofroom, name: str, text: str) -> None:
    """A faulty phrase gives one finding, at the place and of the severity its comment says."""
    expected = EXPECTED.search(text)
    assert expected is not None
    finding = only(room.prove(text))
    assert (finding.rule, finding.severity.word, finding.span.text) == expected.groups(), name
    assert finding.lick == name


def test_harmony_cannot_see_a_slip_inside_the_key(room: Proofroom) -> None:
    """Without its second witness the diatonic slip passes: that is what the witness is for."""
    text = dict(phrases("faulty"))["diatonic-slip"]
    without = "\n".join(line for line in text.split("\n") if "names |" not in line)
    assert told(room.prove(without)) == []


def test_the_message_names_what_is_heard(room: Proofroom) -> None:
    """The finding says the note, its length, its chord, and the repair one fret away."""
    finding = only(room.prove(dict(phrases("faulty"))["misfret-at-the-end"]))
    assert finding.message == (
        "F natural, held four beats, over D: neither in the chord nor led to it; one fret higher is the third"
    )
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:4"


def test_a_short_bar_says_by_how_much_and_where(room: Proofroom) -> None:
    """Length found, length wanted, and the beat at which the bar stops."""
    finding = only(room.prove(dict(phrases("faulty"))["short-bar"]))
    assert finding.message == (
        "bar 1 is 1/8 short: 7 of 8 eighths; it stops before the second half of beat 4"
    )
