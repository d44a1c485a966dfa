"""Rules of harmony beyond their own examples: bends in slots of their own, two voices, choruses."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only, told

from lickwright.checks.spelling_reasons import explain_spelling
from lickwright.theory.chord import parse_chord
from lickwright.theory.key import parse_key


def test_a_release_in_a_slot_of_its_own_is_heard(room: Proofroom) -> None:
    """A bend let down later lands on a note of the line like one let down in its own slot."""
    finding = only(room.prove("A | 3:7b9 - 3:r7 - 4:7 - - -"))
    assert (finding.rule, finding.address) == ("harmony/release", "1.2")
    assert told(room.prove("A | 3:7b9 - 3:r7 - 3:6 - - -")) == []


def test_a_clash_between_the_voices_is_found(room: Proofroom) -> None:
    """Melody and bass that strike a half step at once are heard together."""
    lick = "key: C major\n\nC | 3:5 - 2:6 - 2:5 - 3:5 -\n  low | 5:3 - {} - 3:5 - 5:3 -"
    finding = only(room.prove(lick.format("3:9")))
    assert (finding.rule, finding.message) == (
        "harmony/clash",
        "E natural and F natural, a half step apart, are struck together over C",
    )
    assert told(room.prove(lick.format("3:7"))) == []


def test_a_chorus_is_asked_about_its_own_end(room: Proofroom) -> None:
    """A lick that ends well over its own chord may end badly over the chorus's; hanging it is silent."""
    course = (
        "```progression changes\nkey: G major\n\nEm | {}\n```\n\n"
        "```lick one\nkey: G major\n\nEm | 4:2 - 4:4 - 3:2 - 3:0 -\n```\n\n"
        "```chorus whole\nover: changes\nlicks: one one\n```\n"
    )
    found = {(f.rule, f.lick, f.address) for f in room.prove(course.format("D")).findings}
    assert ("harmony/ending", "whole", "2.4") in found
    found = {(f.rule, f.lick, f.address) for f in room.prove(course.format("G")).findings}
    assert not {rule for rule, _, _ in found if rule.startswith("harmony/ending")}


SLIPPED = "key: C major\n{}\nDm7 | 3:2 3:5 2:3 2:6 3:3 3:6 2:4 2:8\nDm7 | 3:2 - - - - - - -"


def test_an_inexact_side_slip_is_one_finding(room: Proofroom) -> None:
    """The cell moved up a half step but for its last note: the claim is proposed; claimed it is silent."""
    finding = only(room.prove(SLIPPED.format("")))
    assert (finding.rule, finding.address) == ("harmony/unexplained", "1.6")
    assert finding.message.startswith("three notes from 1.5 to 1.7 lie outside the key over Dm7")
    assert "write claims: outside (bar 1);" in finding.help
    assert finding.fix is None
    assert told(room.prove(SLIPPED.format("claims: outside (bar 1)\n"))) == []


@pytest.mark.parametrize(
    ("bars", "places"),
    [
        pytest.param(
            "3:5 - 2:9 - 2:5 - 3:5 -\nC | 1:0 - 3:5 - 1:4 - 1:0 -", ["1.2", "2.3"], id="two, far apart"
        ),
        pytest.param(
            "3:5 - 2:9 - 2:5 - 3:5 -\nC | 1:0 - 3:5 - 1:4 - 1:0 -\nC | 3:5 - 2:9 - 3:5 - 1:0 -",
            ["1.2", "2.3", "3.2"],
            id="three, far apart",
        ),
        pytest.param("3:5 - 2:9 - 1:9 - 1:3 -", ["1.2", "1.3"], id="two, side by side"),
    ],
)
def test_slips_of_their_own_are_findings_of_their_own(room: Proofroom, bars: str, places: list[str]) -> None:
    """Too few to be a passage, or other notes between, each is put to the author."""
    found = room.prove(f"key: C major\n\nC | {bars}", "plain").findings
    assert [(f.rule, f.address) for f in found] == [("harmony/unexplained", place) for place in places]
    assert not any("claims: outside" in f.help for f in found)


@pytest.mark.parametrize(
    ("bar", "rules"),
    [
        pytest.param("4:0 - 4:4 - 3:2 - 2:1 -", ["harmony/shifted-chord"], id="D7 complete"),
        pytest.param("4:4 - 3:2 - 4:4 - 4:0 -", [], id="without its seventh"),
        pytest.param("4:0 - 4:4 - 3:2 2:1 1:0 -", [], id="with another note"),
    ],
)
def test_an_arpeggio_of_the_dominant_over_the_tonic(room: Proofroom, bar: str, rules: list[str]) -> None:
    """A whole D7 over G is put to the author, though no bar beside it has the chord."""
    lick = f"key: G major\n\nC | 3:5 - 2:1 - 1:0 - 2:1 -\nG | {bar}\nC | 1:0 - - - - - - -"
    assert [f.rule for f in room.prove(lick).findings if f.rule == "harmony/shifted-chord"] == rules


@pytest.mark.parametrize(
    ("bar", "found"),
    [
        pytest.param("1:0 2:2 1:0 - 3:2 - - -", ["1.2"], id="short, left by a leap"),
        pytest.param("1:0 2:2 2:2 1:0 3:2 - - -", ["1.2", "1.3"], id="repeated"),
        pytest.param("1:0 2:2 2:3 - 3:2 - - -", [], id="led on by step"),
    ],
)
def test_a_short_major_third_over_a_minor_chord(room: Proofroom, bar: str, found: list[str]) -> None:
    """C sharp over A minor in A major: the key has it, the chord has not."""
    proof = room.prove(f"Am | {bar}\nA | 3:2 - - - - - - -")
    assert [f.address for f in proof.findings if f.rule == "harmony/third-and-seventh"] == found


@pytest.mark.parametrize("ending", ["closed", "open"])
def test_a_turnaround_may_hang(room: Proofroom, ending: str) -> None:
    """With an open ending the last note may lean."""
    found = told(room.prove(f"key: D major\nending: {ending}\n\nD | 4:0 - 4:4 - 3:2 - 3:0 -"))
    assert found == ([] if ending == "open" else [("harmony/ending", "3:0")])


def test_a_unison_bend_is_no_clash(room: Proofroom) -> None:
    """A half-step bend into a unison begins a half step apart."""
    assert told(room.prove("A7 | 2:5+3:8b9 - - - 3:6 - 4:7 -")) == []


# sounding, written, key, chord, before, after: what is expected instead, and the reason
SPELLINGS = [
    (70, "A#", "F major", "C7", 72, 69, ("Bb", "chord")),
    (61, "Db", "D minor", "A7", 60, 64, ("C#", "chord")),
    (68, "Ab", "C major", "C", 67, 69, ("G#", "direction")),
    (68, "G#", "C major", "C", 67, 69, None),
    (68, "G#", "C major", "C", 69, 67, ("Ab", "direction")),
    (70, "Bb", "C major", "C", 72, 71, None),
    (66, "F#", "C major", "C", 67, 65, None),
    (63, "D#", "C major", "C7", 60, None, ("Eb", "blue")),
    (63, "D#", "C major", "C7", 62, 64, None),
    (66, "Gb", "C major", "C", 64, 67, ("F#", "direction")),
    (69, "G##", "C major", "C", 67, 70, ("A", "double")),
    (62, "C##", "F# major", "F#aug", 61, 64, None),
    (62, "D", "F# major", "F#aug", 61, 64, None),
    (64, "E", "Bb major", "Bbdim7", 61, None, None),
    (63, "D#", "Bb major", "C7", 62, 64, None),
    (60, "B", "C major", "C", 59, 62, None),
]


@pytest.mark.parametrize(("midi", "written", "key", "chord", "before", "after", "expected"), SPELLINGS)
def test_a_spelling_has_its_reason(
    midi: int,
    written: str,
    key: str,
    chord: str,
    before: int | None,
    after: int | None,
    expected: tuple[str, str] | None,
) -> None:
    """Chord, key, direction, blue degree, double accidental: the common practice of spelling."""
    in_key = parse_key(key)
    assert in_key is not None
    reason = explain_spelling(midi, written, in_key, parse_chord(chord), before, after)
    assert (None if reason is None else (str(reason.expected), reason.kind)) == expected


MODE = "key: {}\n\nDm | 3:2 - 3:0 - 3:2 - {} -\nC | 2:1 - 2:0 - 3:0 - 3:2 -\n{} | 3:2 - 2:0 2:1 2:0 - 3:2 -"


@pytest.mark.parametrize(
    ("key", "note", "chord", "told_as"),
    [
        ("D minor", "2:0", "Dm", "D dorian"),
        ("D dorian", "2:0", "Dm", None),
        ("D minor", "3:3", "Dm", None),  # B flat is there, too
        ("D minor", "2:0", "Gm", None),  # and here in a chord
    ],
)
def test_another_mode_of_the_key(
    room: Proofroom, key: str, note: str, chord: str, told_as: str | None
) -> None:
    """One degree is foreign throughout, and what the key has for it is nowhere."""
    found = [
        f for f in room.prove(MODE.format(key, note, chord)).findings if f.rule == "harmony/doubtful-key"
    ]
    assert [f.fix and f.fix.edits[0].text for f in found] == ([told_as] if told_as else [])
    assert all("B natural throughout" in f.message for f in found)


VARIED = (
    "```lick shape\nkey: E major\n\nE7 | 2:3 - 2:0 - 4:2 - 6:0 -\n```\n\n"
    "```lick varied\nvary: shape\nover: A7\n1.2: {}\n1.4: 5:0\n```\n"
)


@pytest.mark.parametrize(("change", "told_at"), [("2:2", None), ("2:3", "1.2"), ("2:0", "1.1")])
def test_a_change_that_repeats_the_note_it_should_lead_on(
    room: Proofroom, change: str, told_at: str | None
) -> None:
    """The change is asked about where it is the same note again, the note itself where it goes elsewhere."""
    proof = room.prove(VARIED.format(change))
    assert [(f.rule, f.address) for f in proof.findings] == (
        [("harmony/unchanged-note", told_at)] if told_at else []
    )
    if told_at == "1.2":
        fix = only(proof).fix
        assert fix is not None
        assert fix.edits[0].text == "2:2"
