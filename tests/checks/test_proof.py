"""The proof as a whole: one cause one finding, nothing said twice, limits, order, speed of start."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from proofroom import MANIFEST, Proofroom, only, told

from lickwright.checks.rule import Example
from lickwright.findings import Severity


def test_a_bar_that_does_not_add_up_has_no_harmony(room: Proofroom) -> None:
    """A bar with a slot too few and a foreign note gives the sum alone."""
    short = room.prove("A | 5:0 - 5:4 - 4:2 - 3:3")
    assert [rule for rule, _ in told(short)] == ["rhythm/bar-length"]
    full = room.prove("A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -")
    assert [rule for rule, _ in told(full)] == ["harmony/unexplained"]


def test_what_cannot_be_read_is_not_counted(room: Proofroom) -> None:
    """A slot that is no slot is one finding; that its bar is short now is no second one."""
    assert told(room.prove("A | 5:0 - 5:4 ?? 4:2 - 3:2")) == [("syntax/slot", "??")]


def test_other_bars_are_still_judged(room: Proofroom) -> None:
    """A fault of one bar silences nothing in the next."""
    proof = room.prove("A | 5:0 - 5:4 - 4:2 - 3:2\nA | 5:0 - 5:4 - 4:2 - 3:3 -\nA | 2:2 - - - 3:2 - - -")
    assert [rule for rule, _ in told(proof)] == ["harmony/unexplained", "rhythm/bar-length"]


def test_all_faults_of_a_lick_come_in_one_run(room: Proofroom) -> None:
    """Independent faults are all told, in the order of the text."""
    text = "A | 2:0b2 - 2:2 - 4:4 - h 4:2 -\nA | 5:0 - 5:4 - 4:2 - 3:2"
    proof = room.prove(text)
    assert [f.rule for f in proof.findings] == [
        "hands/open-string",
        "hands/falling-hammer",
        "rhythm/bar-length",
    ]
    assert (proof.errors, proof.queries, proof.notes) == (3, 0, 0)


FAULTY = "```lick one\nkey: D major\n\nD | 4:0 - 3:2 - 2:3 - 3:2 -\n  | 4:3 - - - - - - -\n```\n"


def test_a_variation_does_not_repeat_its_base(room: Proofroom) -> None:
    """A fault that a variation takes over is told once, in the base."""
    variation = "\n```lick two\nvary: one\n1.2: 3:4\n```\n"
    proof = room.prove(FAULTY + variation)
    assert (only(proof).lick, only(proof).address) == ("one", "2.1")


def test_no_generation_of_variations_repeats_the_base(room: Proofroom) -> None:
    """A variation of a variation of a variation says nothing of what the first lick says."""
    text = FAULTY + "".join(
        f"\n```lick {name}\nvary: {base}\n1.2: 3:4\n```\n"
        for base, name in (("one", "two"), ("two", "three"), ("three", "four"), ("four", "five"))
    )
    assert only(room.prove(text)).lick == "one"


def test_one_place_is_told_once_in_lick_and_chorus(room: Proofroom) -> None:
    """A chorus with another chord gives no second, contrary advice about a note of its lick."""
    text = (
        "```progression porch\nkey: D major\n\nG | G | G | G\n```\n\n"
        + FAULTY
        + "\n```chorus all\nover: porch\nlicks: one x2\n```\n"
    )
    unexplained = [f for f in room.prove(text).findings if f.rule == "harmony/unexplained"]
    assert len({(f.span.start, f.span.end) for f in unexplained}) == len(unexplained)
    assert [f.lick for f in unexplained if f.span.text == "4:3"] == ["one"]


def test_promises_wait_for_blocks_that_cannot_be_read(room: Proofroom) -> None:
    """A lick that is missing for a fault of its own is not missed a second time."""
    course = MANIFEST.format(style="country") + "\n[promises]\nlicks = 2\n"
    one = "```lick one\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n```\n\n"
    lost = room.prove(Example(one + "```lick two\nvary: oen\n1.1: 5:2\n```\n", course=course))
    assert [rule for rule, _ in told(lost)] == ["course/unknown-lick"]
    short = room.prove(Example(one, course=course))
    assert [rule for rule, _ in told(short)] == ["course/promise"]


@pytest.mark.parametrize(
    ("promise", "lick", "rule"),
    [
        ("bars = 3", "\nA 5:0 - 5:4 - 4:2 - 3:2 -", "syntax/bar-line"),
        ("keys = 2", "key: H major\n", "syntax/field-value"),
        ("tunings = 2", "tuning: D A D G B Q\n", "syntax/field-value"),
        ("techniques = 1", "\nA | 5:0 H 5:4 - 4:2 - 3:2 -", "syntax/habit"),
    ],
)
def test_a_promise_waits_for_what_cannot_be_read(room: Proofroom, promise: str, lick: str, rule: str) -> None:
    """What is not read cannot be counted: the number would be wrong, and no other is told to be written."""
    course = MANIFEST.format(style="country") + f"\n[promises]\n{promise}\n"
    one = "```lick one\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n```\n\n"
    two = f"```lick two\n{lick}\nA | 5:4 - 5:0 - 3:2 - 4:2 -\n```\n"
    assert {name for name, _ in told(room.prove(Example(one + two, course=course)))} == {rule}


def test_degrees_are_judged_over_the_licks_own_chords(room: Proofroom) -> None:
    """The degrees row speaks of the chords of its lick, not of those of a chorus that plays it."""
    text = (
        "```progression porch\nkey: A major\n\nD\n```\n\n```lick one\nkey: A major\n\n"
        "A | 5:0 - 5:4 - 4:2 - 3:2 -\n  degrees | 1 3 5 1\n```\n\n"
        "```chorus all\nover: porch\nlicks: one\n```\n"
    )
    assert "witness/degrees" not in {rule for rule, _ in told(room.prove(text))}


def test_a_variation_answers_for_its_changes(room: Proofroom) -> None:
    """A fault that the change brings in is the variation's, at the change."""
    text = FAULTY.replace("4:3 -", "4:4 -") + "\n```lick two\nvary: one\n2.1: 4:3\n```\n"
    finding = only(room.prove(text))
    assert (finding.lick, finding.address, finding.span.text) == ("two", "2.1", "4:3")


def test_a_variation_is_judged_over_its_own_chords(room: Proofroom) -> None:
    """The same notes over another chord are judged anew."""
    base = "```lick one\n\nDm | 3:2 - 2:3 - 2:6 - 3:2 -\n```\n"
    moved = base + "\n```lick two\nvary: one\nover: A\n```\n"
    assert told(room.prove(base)) == []
    assert {f.lick for f in room.prove(moved).findings} == {"two"}


def test_a_chorus_does_not_repeat_its_licks(room: Proofroom) -> None:
    """The same finding is not told again for each time a chorus plays the lick."""
    grid = "```progression porch\nkey: D major\n\nD | D | D | D\n```\n\n"
    chorus = "\n```chorus all\nover: porch\nlicks: one x2\n```\n"
    proof = room.prove(grid + FAULTY.replace("key: D major\n", "over: porch\n").replace("D |", "|") + chorus)
    assert only(proof).lick == "one"


def test_limits_of_the_course_hold(room: Proofroom) -> None:
    """A course for small hands sets the reach lower, one for large hands higher."""
    text = "F | 6:1+2:5 - - - 6:1 - - -"
    course = (
        MANIFEST.format(style="country") + "\n[limits]\nstretch-query = {query}\nstretch-error = {error}\n"
    )
    assert only(room.prove(text)).severity is Severity.QUERY
    narrow = room.prove(Example(text, course=course.format(query=90, error=110)))
    assert only(narrow).severity is Severity.ERROR
    wide = room.prove(Example(text, course=course.format(query=150, error=170)))
    assert told(wide) == []


def test_a_pair_of_limits_the_wrong_way_round_is_one_finding(room: Proofroom) -> None:
    """Whichever is set; where both are, the query is told of, and two limits may be one."""
    text = "A | 5:0 - 5:4 - 4:2 - 3:2 -"
    course = MANIFEST.format(style="country") + "\n[limits]\n"
    low = room.prove(Example(text, course=course + "stretch-error = 100\n"))
    assert only(low).message == "stretch-error is 100, below stretch-query at 112"
    assert only(low).help == "Where none is set, it is 140 mm"
    both = room.prove(Example(text, course=course + "stretch-query = 120\nstretch-error = 100\n"))
    assert only(both).message == "stretch-query is 120, above stretch-error at 100"
    assert told(room.prove(Example(text, course=course + "stretch-query = 110\nstretch-error = 110\n"))) == []


def test_plain_style_asks_about_blue_notes_that_country_has(room: Proofroom) -> None:
    """A flat third that leaps in and out is a colour in country and a query in plain style."""
    text = "A7 | 3:2 - 1:0 - 2:1 - 3:2 -"
    assert told(room.prove(text)) == []
    finding = only(room.prove(text, style="plain"))
    assert (finding.rule, finding.severity) == ("harmony/unexplained", Severity.QUERY)


def test_bars_said_to_be_outside_are_left_alone(room: Proofroom) -> None:
    """The claim ``outside`` covers its bars and no others."""
    bars = "A | 5:0 - 5:4 - 4:2 - 3:3 -\nA | 2:2 - - - 3:2 - - -"
    assert told(room.prove(f"claims: outside (bar 1)\n\n{bars}")) == []
    assert len(room.prove(f"claims: outside (bar 2)\n\n{bars}").findings) == 1


def test_other_strings_tunings_and_capos(room: Proofroom) -> None:
    """Range, stretch and witness go by the lick's own guitar."""
    seven = "tuning: B1 E2 A2 D3 G3 B3 E4\n\nE | 7:5 - 6:0 - 5:2 - 4:2 -\n  names | E E B E"
    assert told(room.prove(seven)) == []
    capo = "capo: 3\n\nC | 5:0 - 5:4 - 4:2 - 3:2 -\n  names | C E G C"
    assert told(room.prove(capo)) == []
    top = room.prove("capo: 3\n\nC | 1:20 - 1:12 - 1:9 - 1:5 -")
    assert only(top).message == "fret 20 is off the neck: the highest above the capo at 3 is 19"


def test_nothing_slow_is_imported() -> None:
    """Proofing needs neither the engraver nor music21."""
    code = "import lickwright.checks, lickwright.checks.catalogue as c, sys; c.rules(); print(*sys.modules)"
    builder = Path(__file__).parents[2] / "builder"
    modules = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=builder
    ).stdout.split()
    assert "lickwright.checks.harmony.unexplained" in modules
    assert not {"music21", "verovio", "numpy", "soundfile"} & set(modules)


def test_a_row_that_is_miscounted_accuses_no_note(room: Proofroom) -> None:
    """A names row with an entry missing is one finding, not one for each note after it."""
    proof = room.prove("A | 5:0 - 5:4 - 4:2 - 3:2 -\n  names | A E A")
    assert [rule for rule, _ in told(proof)] == ["syntax/row-count"]
