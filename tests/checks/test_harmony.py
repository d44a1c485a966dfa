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
    (70, "A#", "F major", "C7", 72, 69, ("Bb", "key")),
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
