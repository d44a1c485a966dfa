"""Fingers of the fretting hand: rows that a teacher wrote, with slips planted in them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from proofroom import Proofroom, only, told

from lickwright.checks.candidates import list_candidates
from lickwright.checks.hands import finger, needless_shift, ringing_finger, slide, stray_note
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject, Written
from lickwright.checks.trial import put_tone
from lickwright.model.music import Piece
from lickwright.model.strike import Fretted
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course

CONTENT = Path(__file__).parents[2] / "content"
RULES = (needless_shift, finger, ringing_finger, slide)
LIMITS = set_limits(())
FINGERS = "1234"


def _found(piece: Piece) -> int:
    subject = Subject(piece, LIMITS)
    return sum(1 for rule in RULES for _ in rule.run(subject))


def _put(piece: Piece, *changes: tuple[Written, str]) -> Piece:
    for written, number in changes:
        tone = replace(written.tone, finger=number)
        piece = put_tone(piece, written.sound.address, written.index, tone)
    return piece


def _plant(piece: Piece) -> Iterator[tuple[str, Piece]]:
    fingered = [w for w in Subject(piece, LIMITS).tones if w.tone.finger in tuple(FINGERS) and w.tone.fret]
    row = [written.tone.finger or "" for written in fingered]
    for number in FINGERS:
        if set(row) - {number}:
            yield "all one finger", _put(piece, *((written, number) for written in fingered))
    for shifted in (row[1:] + row[:1], row[-1:] + row[:-1]):
        if shifted != row:
            yield "the row shifted by one", _put(piece, *zip(fingered, shifted, strict=True))
    for a, b in pairwise(fingered):
        if row and a.tone.finger != b.tone.finger and a.tone.fret != b.tone.fret and a.sound is not b.sound:
            yield "two exchanged", _put(piece, (a, b.tone.finger or ""), (b, a.tone.finger or ""))


@pytest.fixture(scope="module")
def licks() -> list[Piece]:
    course, _ = read_course(CONTENT)
    assert course is not None
    book, _ = resolve(course)
    return [piece for piece in book.pieces if piece.kind == "lick" and not piece.of]


def test_slips_planted_in_the_rows_of_the_demo_are_found(licks: list[Piece]) -> None:
    """As they stand nothing is found; all one finger, a row that has slipped, two exchanged mostly are.

    What is left are rows in which every note stands alone between open strings, and neighbours at one
    beat's distance, where the hand has time for anything.
    """
    planted: Counter[str] = Counter()
    found: Counter[str] = Counter()
    for piece in licks:
        assert _found(piece) == 0, piece.name
        for kind, slipped in _plant(piece):
            planted[kind] += 1
            found[kind] += _found(slipped) > 0
    share = {kind: found[kind] / planted[kind] for kind in planted}
    assert min(planted.values()) > 80
    assert share["all one finger"] > 0.85
    assert share["the row shifted by one"] > 0.85
    assert share["two exchanged"] > 0.8


def test_one_finger_that_has_slipped(licks: list[Piece]) -> None:
    """Of single fingers put one lower or higher a third cannot be played so, and that finger is named.

    The others reach their fret from where the hand is: nobody can say that they are wrong.
    """
    planted = found = named = 0
    for piece in licks:
        for written in Subject(piece, LIMITS).tones:
            for number in _beside(written) if written.tone.fret else ():
                subject = Subject(_put(piece, (written, number)), LIMITS)
                places = {finding.address for rule in RULES for finding in rule.run(subject)}
                planted += 1
                found += bool(places)
                named += str(written.sound.address) in places
    assert planted > 2000
    assert found > 0.3 * planted
    assert named > 0.85 * found


def _beside(written: Written) -> tuple[str, ...]:
    finger = written.tone.finger or "0"
    return tuple(n for n in FINGERS if finger in FINGERS and abs(int(n) - int(finger)) == 1)


@pytest.mark.parametrize(
    ("row", "marked", "mended"),
    [
        (
            "N.C. | 2:15 2:12 3:14 3:12 4:14 - - -\n  lh | 3 2 3 1 3",
            "2:12",
            "1",
        ),  # neighbours three frets apart
        ("N.C. | 2:3 - 2:3 - 2:3 - 2:3 -\n  lh | 2 2 3 2", "2:3", "2"),  # a note struck again
        ("N.C. | 2:3 1:2 2:0 1:2 2:3 1:2 2:0 1:2\n  lh | 2 2 0 1 2 1 0 1", "1:2", "1"),  # a hop
        ("N.C. | 1:1 2:3 3:2 2:3 2:1 4:2 - -\n  lh | 1 1 2 3 1 2", "2:3", "3"),  # found at the finger itself
    ],
)
def test_the_finger_that_stands_apart_is_named_and_mended(
    room: Proofroom, row: str, marked: str, mended: str
) -> None:
    """One finger does not go with those around it; put right, nothing is found."""
    finding = only(room.prove(row))
    assert (finding.rule, finding.span.text) == ("hands/needless-shift", marked)
    assert finding.fix is not None
    (edit,) = finding.fix.edits
    text = edit.span.source.text
    assert edit.text == mended
    assert told(room.prove(text[: edit.span.start] + edit.text + text[edit.span.end :])) == []


@pytest.mark.parametrize(
    ("position", "fingers", "found"),
    [
        ("2", "4 2 4 0", ["4"]),  # a finger a fret, of position 1
        ("2", "3 1 3 0", []),
        ("open", "3 1 3 0", []),  # the open position names no finger
        ("2", "4 1 3 0", []),  # a stretch
    ],
)
def test_fingers_of_another_position_than_stated(
    room: Proofroom, position: str, fingers: str, found: list[str]
) -> None:
    """A whole bar in the fingers of the next position contradicts the one that is stated."""
    proof = room.prove(f"position: {position}\n\nA | 4:4 - 4:2 - 5:4 - 5:0 -\n  lh | {fingers}")
    assert told(proof) == [("hands/position", mark) for mark in found]


@pytest.mark.parametrize(
    ("notes", "mended"), [("2:10 - 2:12 - 1:9 - 1:12 -", "9"), ("2:10 2:12 1:9 1:12 1:15 1:17 1:9 -", None)]
)
def test_a_position_that_holds_every_note_is_offered(room: Proofroom, notes: str, mended: str | None) -> None:
    """Only where it is certain: all notes lie in it."""
    finding = only(room.prove(f"position: 5\n\nN.C. | {notes}"))
    assert finding.rule == "hands/position"
    assert (finding.fix and finding.fix.edits[0].text) == mended


@pytest.mark.parametrize(
    "row",
    [
        "N.C. | 1:5 1:6 1:7 1:8 1:9 1:10 - -\n  lh | 1 2 1 2 3 4",  # a shift that the tenth fret asks for
        "N.C. | 3:5 - 3:7 - 3:8 - - -\n  lh | 1 3 3",  # a quarter each: time enough for one shift
        "N.C. | 3:5 3:7 2:5 2:8 2:10 1:8 1:10 -\n  lh | 1 3 1 3 4 1 3",  # from box to box
        "N.C. | 5:3 3:5 5:4 3:6 5:5 3:7 - -\n  lh | 1 3 1 3 1 3",  # octaves, broken
        "N.C. | 4:2 s 4:4 3:2 4:4 4:2 - - -\n  lh | 1 1 1 3 1",  # there by a slide, and back
        "N.C. | 5:3 - 4:2 - 5:3 2:1 4:2 -\n  lh | 3 2 3 1 2",  # the thumb's pattern over a chord
        "N.C. | 3:7b9 2:5 3:7 - 3:5 - - -\n  lh | 3 1 3 1",
        "N.C. | 4:2 4:4 3:0 3:2 3:4 2:0 - -\n  lh | 1 3 0 2 4 0",
        "N.C. | 2:3 2:2 3:2 - 2:3 - - -\n  lh | 2 2 1 2",  # side by side on the second fret
        (
            "position: 5 (bar 1), 4 (bar 2)\n\nN.C. | 1:0 - - - - - 3:5 4:7\n  lh | 0 1 3\n"
            "  | 4:6 3:7 3:4 - - - - -\n  lh | 3 4 1"
        ),
        "N.C. | 3:6+2:5 3:7+2:7 3:9+2:8 - - - - -\n  lh | 21 34 21",
    ],
)
def test_idioms_stand(room: Proofroom, row: str) -> None:
    """Guide fingers, bends, open strings, chords and stated positions are left alone."""
    assert told(room.prove(row)) == []


def test_both_voices_are_one_hand(room: Proofroom) -> None:
    """The first finger in the upper voice cannot lie above the third in the lower."""
    text = "A | {}:5 - - - 1:0 - - -\n   lh | 1 0\n   low | 4:{} - - - 5:0 - - -\n   lh | 3 0"
    assert told(room.prove(text.format(1, 4))) == [("hands/finger", "4:4")]
    assert told(room.prove(text.format(1, 7))) == []


def _stray(piece: Piece) -> Iterator[tuple[str, Piece]]:
    """Every single note once an octave too high, and once at its place of another position."""
    guitar = piece.music.guitar
    for written in Subject(piece, LIMITS).tones:
        tone = written.tone
        if len(written.sound.tones) > 1 or not tone.fret or not isinstance(tone.head, Fretted):
            continue
        midi = guitar.midi(tone.string, tone.fret)
        for kind, string, fret in (
            ("an octave up", tone.string, tone.fret + 12),
            ("two strings lower", tone.string + 2, midi - guitar.midi(min(tone.string + 2, 6), 0)),
        ):
            if string <= guitar.strings and guitar.has_fret(fret):
                other = replace(tone, string=string, fret=fret, head=replace(tone.head, fret=fret))
                yield kind, put_tone(piece, written.sound.address, written.index, other)


def test_notes_planted_far_from_the_hand_are_found(licks: list[Piece]) -> None:
    """As they stand nothing is found; of single notes moved far away most are, however slow the piece."""
    planted: Counter[str] = Counter()
    found: Counter[str] = Counter()
    for piece in licks:
        assert list(stray_note.run(Subject(piece, LIMITS))) == [], piece.name
        for kind, slipped in _stray(piece):
            planted[kind] += 1
            found[kind] += bool(list(stray_note.run(Subject(slipped, LIMITS))))
    assert min(planted.values()) > 400
    assert all(found[kind] > 0.6 * planted[kind] for kind in planted)


def test_a_stray_note_is_sent_home(room: Proofroom) -> None:
    """The digit too many and the string of another position each get the note under the hand."""
    for bar, mended in (("2:5 2:8 1:5 1:17 1:5", "1:5"), ("3:2 2:3 3:2 5:12 3:2", "3:2")):
        fix = only(room.prove(f"A | {bar} - - -")).fix
        assert fix is not None
        assert [edit.text for edit in fix.edits] == [mended]


@pytest.mark.parametrize(
    ("bar", "found"),
    [
        ("1:2 1:5 1:5 1:10 1:5 1:2 2:2 -", 0),  # high D lies nowhere lower
        ("1:2 1:5 1:5 1:14 1:5 1:2 2:2 -", 1),  # an octave of 1:2; a digit too many of 1:4
        ("1:2 1:3 1:2 3:11 1:2 1:3 1:2 -", 1),  # the same note is 1:2
        ("2:1 1:1 2:1 1:12 2:1 1:1 2:1 -", 1),  # an octave of the open string
        ("2:1 1:1 2:1 1:10 2:1 1:1 2:1 -", 0),
        ("3:2 3:4 2:3 4:9 2:3 3:4 3:2 -", 1),  # five frets above the hand
        ("3:2 3:4 2:3 4:8 2:3 3:4 3:2 -", 0),  # four
    ],
)
def test_a_note_that_is_only_out_there_is_no_stray(room: Proofroom, bar: str, found: int) -> None:
    """What the hand cannot have meant lower down is music; what it can is asked about."""
    assert [rule for rule, _ in told(room.prove(f"N.C. | {bar}"))] == ["hands/stray-note"] * found


def test_a_rule_of_the_hand_never_changes_the_note(licks: list[Piece], room: Proofroom) -> None:
    """Its repairs keep the note, move it by octaves or mend a digit: 1:14 is 1:2 or 1:4, and no neighbour."""
    fix = only(room.prove("N.C. | 1:2 1:5 1:5 1:14 1:5 1:2 2:2 -")).fix
    assert fix is not None
    assert [edit.text for edit in fix.edits] in (["1:2"], ["1:4"])
    seen = 0
    for piece in licks:
        subject = Subject(piece, LIMITS)
        for written in subject.tones:
            beside = list_candidates(subject, written.sound, written.index, reached=True)
            for each in beside:
                fret, was = each.tone.fret or 0, str(written.tone.fret)
                typed = {was[-1], was[::-1]} if len(was) > 1 else set()
                same = (each.tone.path[0] - written.tone.path[-1]) % 12 == 0
                swapped = (each.tone.string, fret) == (written.tone.fret, written.tone.string)
                assert same or str(fret) in {str(int(t)) for t in typed} or swapped
                seen += 1
    assert seen > 1000


@pytest.mark.parametrize(("outside", "found"), [(1, 0), (2, 1), (3, 1)])
def test_a_position_may_lack_fewer_than_a_quarter(room: Proofroom, outside: int, found: int) -> None:
    """Of eight notes two outside are a quarter, and that is where the query begins."""
    frets = [10] * outside + [5] * (8 - outside)
    bar = " ".join(f"2:{fret}" for fret in frets)
    assert [rule for rule, _ in told(room.prove(f"position: 5\n\nN.C. | {bar}"))] == [
        "hands/position"
    ] * found
