"""The one-fret repair is offered where it helps, and not where it does not."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only


@pytest.mark.parametrize(
    ("lick", "words"),
    [
        ("A | 2:3 - - - 3:2 - - -", "one fret lower is the third"),
        (
            "key: D major\n\nD | 4:0 - 3:2 - 2:3 - 3:2 -\n  | 4:3 - - - - - - -",
            "one fret higher is the third",
        ),
        ("A7 | 2:5 - 3:6 - 3:7b8 - - -", "bent one half step higher is the fifth"),
        ("key: G major\n\nEm | 4:2 - 4:6 - 2:0 - - -", "one fret lower is the minor third"),
    ],
)
def test_the_repair_says_what_it_would_be(room: Proofroom, lick: str, words: str) -> None:
    """The nearest fret that makes the note one of the chord, named by its degree."""
    assert only(room.prove(lick)).message.endswith(f"; {words}")


def test_the_repair_is_an_edit_that_clears_the_finding(room: Proofroom) -> None:
    """The fix taken over as it stands leaves nothing to find."""
    lick = "A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -"
    finding = only(room.prove(lick))
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    text = edit.span.source.text
    mended = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert room.prove(mended).findings == ()


def test_a_bend_is_not_rewritten(room: Proofroom) -> None:
    """Where a bend misses, the words say how far; the author decides which fret it starts from."""
    assert only(room.prove("A7 | 2:5 - 3:6 - 3:7b8 - - -")).fix is None


@pytest.mark.parametrize(
    ("lick", "fix"),
    [
        ("A7 | 5:0 - 5:4 - 4:2 - 4:3 -\n names | A C# E F#", "4:4: one fret higher is F sharp"),
        ("key: C major\n\nC | 3:0 - 2:1 - 2:3 - 1:0 -\n  names | G C E E", "2:5: two frets higher is E"),
        ("A | 3:2 - 2:2 - 2:6~ - 2:2 -\n | 3:2 - - - - - - -", "2:5~: one fret lower is the fifth"),
    ],
)
def test_the_fix_keeps_what_else_is_written(room: Proofroom, lick: str, fix: str) -> None:
    """String, fret and signs are put as the author would; a witness is mended to the name it gives."""
    finding = only(room.prove(lick))
    assert finding.fix is not None
    assert finding.fix.title == fix


def test_exchanged_digits_are_tried(room: Proofroom) -> None:
    """21 for 12 is a likely slip: named beside the nearest fret."""
    finding = only(room.prove("key: C major\n\nC | 1:8 - 1:10 - 1:12 - 1:21 - \n | 1:12 - - - 1:8 - - -"))
    assert "fret 12, its digits exchanged, is the third, too" in finding.help


def test_a_repair_that_does_harm_is_not_offered(room: Proofroom) -> None:
    """The name asks for a hammer-on that falls, or stands still: the fret is not put there."""
    for name in ("D#", "E"):
        lick = f"A | 5:0 - 4:2 h 4:3 3:2 - 2:2 -\n  names | A E {name} A C#"
        finding = only(room.prove(lick))
        assert (finding.rule, finding.span.text, finding.fix) == ("witness/names", "4:3", None)


def test_a_lick_of_a_variation_is_not_mended_through_it(room: Proofroom) -> None:
    """A note that a variation takes over stands in its base: it is named, and no edit is offered."""
    base = "```lick one\n\nA | 5:0 - 5:4 - 4:2 - 3:2 -\n | 2:2 - - - 3:2 - - -\n```\n"
    proof = room.prove(base + "\n```lick two\nvary: one\nkey: F major\nover: F\n```\n")
    assert {finding.lick for finding in proof.findings} == {"two"}
    assert all(finding.fix is None for finding in proof.findings)
