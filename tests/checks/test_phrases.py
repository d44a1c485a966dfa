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


def test_a_shifted_chord_is_one_finding(room: Proofroom) -> None:
    """Every note of the bar rubs against the chord that has slipped, and the slip alone is told."""
    finding = only(room.prove(dict(phrases("faulty"))["another-bars-chord"]))
    assert finding.rule == "harmony/shifted-chord"
    assert finding.message == "the notes of bar 1 are those of D, and the chord is A"


def test_a_variation_keeps_a_note_that_had_to_change(room: Proofroom) -> None:
    """The address, the note it has, what it was, and the note of the new chord; once for the lick."""
    text = (
        "```lick shape\nkey: A major\n\nA7 | 3:2 - 2:2 - 1:0 - 2:2 3:2\n```\n\n"
        "```lick moved\nvary: shape\nover: D7\n{}```"
    )
    finding = only(room.prove(text.format("1.4: 2:1\n")))
    assert (finding.rule, finding.address, finding.lick) == ("harmony/unchanged-note", "1.2", "moved")
    assert finding.message == ("1.2 stays C sharp, the third of A7, and D7 has C natural, its flat seventh")
    assert told(room.prove(text.format("1.2: 2:1\n1.4: 2:1\n"))) == []


def test_a_bend_says_where_it_arrives(room: Proofroom) -> None:
    """The note under the bend, its target, and the bend that would arrive at a chord tone."""
    finding = only(room.prove(dict(phrases("faulty"))["half-step-bend-held"]))
    assert finding.message == (
        "the bend from D natural arrives at D sharp, held two beats, over A7: neither in the chord nor"
        " led to it; bent one half step higher is the fifth"
    )


@pytest.mark.parametrize("style", ["country", "blues", "plain"])
def test_only_held_notes_make_a_third_wrong(room: Proofroom, style: str) -> None:
    """A major third over a minor chord is left alone when it passes, is short, or is bent to."""
    for bar in ("3:2 - 2:1 2:2 2:3 - 1:0 -", "3:2 - 2:3 2:2 2:1 - 1:0 -", "3:2 - 2:0 - 2:1 - 1:0 -"):
        assert told(room.prove(f"key: A minor\n\nAm | {bar}", style)) == []


def test_a_key_in_doubt_is_told_once(room: Proofroom) -> None:
    """A lick in F under a signature of five sharps: the key, and not each of its notes."""
    lick = "key: B major\n\nC7 | 3:5 - 3:3 - 3:0 - 4:2 -\nF | 3:3 - 3:2 - 4:3 - 2:1 -"
    finding = only(room.prove(lick))
    assert (finding.rule, finding.span.text, finding.help) == (
        "harmony/doubtful-key",
        "B major",
        "Write key: F major",
    )


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
    assert finding.message == ("bar 1 is an eighth too short: 7 of 8 eighths; it stops before the “and” of 4")
