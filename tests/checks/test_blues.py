"""The idiom of a blues: a course of twelve licks that nothing is said to, and what is found of slips in it.

The licks are our own, in A, E and G: the box over three chords, bends to the tonic and the fourth, a riff
that moves with its chords.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from proofroom import Proofroom, only, prove_folder, told

from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.suppression import keep_causes
from lickwright.checks.trial import put_tone
from lickwright.findings import Severity
from lickwright.model.music import Piece, Tone
from lickwright.model.strike import Fretted
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

COURSE = Path(__file__).parents[1] / "courses" / "twelve-bars"
LICKS = 12
FOUND = 0.25
"""Of all slips of one fret, those into other notes of the scale among them (own threshold)."""


def _pieces() -> tuple[Piece, ...]:
    course, _ = read_course(COURSE)
    assert course is not None
    return resolve(course)[0].pieces


def _reported(piece: Piece) -> set[tuple[str, str]]:
    findings = keep_causes(Subject(piece, set_limits(())).found)
    return {(f.rule, f.address) for f in findings if f.severity >= Severity.QUERY}


def _slips(piece: Piece) -> Iterator[Piece]:
    """Every note a fret lower, and a fret higher; a bend with its target."""
    for written in Subject(piece, {}).tones:
        for way in (-1, 1):
            if isinstance(written.tone.head, Fretted) and (written.tone.fret or 0) + way >= 0:
                yield put_tone(piece, written.sound.address, written.index, _moved(written.tone, way))


def _moved(tone: Tone, way: int) -> Tone:
    fret = (tone.fret or 0) + way
    return replace(
        tone,
        head=Fretted(fret),
        fret=fret,
        path=tuple(pitch + way for pitch in tone.path),
        bends=tuple(replace(bend, to=Fraction(bend.to + way)) for bend in tone.bends),
    )


def test_twelve_licks_are_silent() -> None:
    """Neither an error nor a query nor a note."""
    assert len(_pieces()) == LICKS
    assert told(prove_folder(COURSE)) == []


def test_outside_a_blues_they_are_not() -> None:
    """The planted fault: the same licks in a course of another style are asked about."""
    asked = [piece.name for piece in _pieces() if _reported(replace(piece, style="plain"))]
    assert {"bend-to-the-tonic", "tonic", "fourth", "down-the-box"} <= {*asked}


def test_a_fair_share_of_slips_is_found() -> None:
    """Most slips of one fret in a pentatonic land in the chord or lead on by a half step."""
    planted = found = 0
    for piece in _pieces():
        known = _reported(piece)
        for slipped in _slips(piece):
            planted += 1
            found += bool(_reported(slipped) - known)
    assert found >= FOUND * planted, f"{found} of {planted}"


@pytest.mark.parametrize(
    ("bar", "rule"),
    [
        ("E7 | 1:6 - - - 2:8 2:5 3:7 3:5", "harmony/unexplained"),
        ("E7 | 2:8b11~ - - - 1:5 2:8 2:5 3:7", "harmony/bend-target"),
        ("Bb7 | 1:5 - 2:8 2:5 2:8 2:5 4:7 -\nA7 | 4:7 - - - . . . .", "harmony/shifted-chord"),
        ("D7 | 3:6 - 2:8 2:5 3:6 4:7 2:8 -\nA7 | 4:7 - - - . . . .", "harmony/shifted-chord"),
    ],
)
def test_what_lies_beside_the_scale_is_told(room: Proofroom, bar: str, rule: str) -> None:
    """A half step beyond the tonic; a chord that is none of the three; the third of A over D7."""
    assert rule in {found for found, _ in told(room.prove(bar, "blues"))}


@pytest.mark.parametrize(("style", "rules"), [("blues", []), ("country", ["harmony/unchanged-note"])])
def test_a_pentatonic_goes_over_the_fourth_chord_as_it_is(
    room: Proofroom, style: str, rules: list[str]
) -> None:
    """In a blues G stays over D7; elsewhere the change to F sharp is offered."""
    text = (
        "```lick shape\n\nA7 | 3:5 - 3:7 - 2:8 - 2:5 -\n```\n\n"
        "```lick moved\nvary: shape\nover: D7\nending: open\n```\n"
    )
    assert [rule for rule, _ in told(room.prove(text, style)) if "unchanged" in rule] == rules


def test_the_change_that_is_offered_mends(room: Proofroom) -> None:
    """The finding marks the note where it is written; its edit, done to the text, leaves nothing to ask."""
    text = (
        "```lick shape\nkey: A major\n\nA7 | 3:2 - 2:2 - 1:0 - 3:2 -\n```\n\n"
        "```lick moved\nvary: shape  \nover: D7\n```\n"
    )
    finding = only(room.prove(text))
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    assert (finding.span.text, finding.fix.title) == ("2:2", "1.2: 2:1 in moved")
    whole = edit.span.source.text
    mended = whole[: edit.span.start] + edit.text + whole[edit.span.end :]
    lesson = mended[mended.index("```lick shape") :]
    assert "vary: shape  \n1.2: 2:1\nover: D7" in lesson
    assert told(room.prove(lesson)) == []


def test_a_note_taken_over_twice_is_marked_where_it_is_written(room: Proofroom) -> None:
    """A variation of a variation: the note stands in the first lick, the change goes into the last."""
    text = (
        "```lick shape\nkey: A major\n\nA7 | 3:2 - 2:2 - 1:0 - 3:2 -\n```\n\n"
        "```lick same\nvary: shape\n1.4: 4:7\n```\n\n"
        "```lick moved\nvary: same\nover: D7\n```\n"
    )
    finding = only(room.prove(text))
    assert (finding.span.text, finding.lick) == ("2:2", "moved")
    assert finding.fix is not None
    assert finding.fix.edits[0].span.source.text[: finding.fix.edits[0].span.start].endswith("vary: same")


@pytest.mark.parametrize(
    ("middle", "says", "repair"),
    [
        ("3:0", "a neighbour note a whole step below", "3:1"),
        ("3:3", "a neighbour note above", "3:1"),
    ],
)
def test_a_neighbour_lies_on_the_side_that_is_said(
    room: Proofroom, middle: str, says: str, repair: str
) -> None:
    """A G A and A B flat A: the repair goes on turning, and does not repeat the note."""
    finding = only(room.prove(f"A | 3:2 - {middle} - 3:2 - 4:2 -\n  | 5:0 - - - - - - -", "plain"))
    assert says in finding.message
    assert finding.fix is not None
    assert finding.fix.edits[0].text == repair
