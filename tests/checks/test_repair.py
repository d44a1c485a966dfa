"""The one-fret repair is offered where it helps, and not where it does not."""

from __future__ import annotations

from pathlib import Path

import pytest
from proofroom import MANIFEST, Proofroom, only

from lickwright.checks.catalogue import rules
from lickwright.checks.handbook import lesson
from lickwright.checks.limits import set_limits
from lickwright.checks.subject import Subject
from lickwright.checks.trial import try_tone
from lickwright.findings import Severity
from lickwright.model.timeline import resolve
from lickwright.reading.course import read_course


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


@pytest.mark.parametrize(
    ("lick", "text"),
    [
        ("A7 | 2:5 - 3:6 - 3:7b8 - - -", "3:7b9"),
        ("A7 | 2:5 - 3:6 - 3:7b8r7 - - -\n  names | E C# E", "3:7b9r7"),
        ("A7 | 2:5 - 3:6 - 3:7pb8~ - - -\n  names | E C# E", "3:7pb9~"),
    ],
)
def test_a_bend_is_mended_at_its_target(room: Proofroom, lick: str, text: str) -> None:
    """The fret stays, the highest target moves; a release and a vibrato are left as written."""
    fixes = [f.fix.edits[0].text for f in room.prove(lick).findings if f.fix is not None]
    assert fixes == [text]


def test_a_fret_under_the_hand_is_offered_before_one_far_off(room: Proofroom) -> None:
    """A digit too many is a likely slip; the nearest fret of that name is a jump away."""
    finding = only(room.prove("key: C major\n\nC | 1:8 - 2:8 - 2:18 - 1:8 -\n  names | C G G C"))
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "2:8"


def test_the_named_note_is_looked_for_on_other_strings(room: Proofroom) -> None:
    """No fret near on the string is the named note; under the hand there is one."""
    finding = only(room.prove("key: C major\n\nC | 5:3 - 4:2 - 4:0 - 5:3 -\n  names | C E C C"))
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "5:3"


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
    """21 for 12 is a likely slip: the hand is there, and a fret below 21 it is not."""
    finding = only(room.prove("key: C major\n\nC | 1:8 - 1:10 - 1:12 - 1:21 - \n | 1:12 - - - 1:8 - - -"))
    assert finding.message.endswith("; fret 12, its digits exchanged, is the third")


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


def test_a_note_of_its_chord_is_not_mended_out_of_it(room: Proofroom) -> None:
    """The row says F over D7, the note is its third: the row has slipped, and no fret is put there."""
    finding = only(room.prove("key: G major\n\nD7 | 4:0 - 4:4 - 3:2 - 2:1 -\n  names | D F A C"))
    assert finding.rule == "witness/names"
    assert finding.fix is not None
    assert [(edit.span.text, edit.text) for edit in finding.fix.edits] == [("F", "F#")]


def test_a_repair_is_offered_once(room: Proofroom) -> None:
    """The fret that is tried first is not named again as a place under the hand."""
    finding = only(room.prove("A7 | 5:0 - 5:4 - 4:2 - 4:3 -\n names | A C# E F#"))
    assert finding.fix is not None
    assert "string 4, fret 4" not in finding.help


def test_a_variation_is_tried_as_a_variation(tmp_path: Path) -> None:
    """Rules that hold it against its base go on doing so: the note that keeps its fret is still told."""
    rule = rules()["harmony/unchanged-note"]
    (tmp_path / "lessons").mkdir()
    (tmp_path / "course.toml").write_text(MANIFEST.format(style="country"), "utf-8")
    (tmp_path / "lessons" / "example.md").write_text(lesson(rule.bad[0]), "utf-8")
    course, _ = read_course(tmp_path)
    assert course is not None
    book, _ = resolve(course)
    shape, example = book.piece("shape"), book.piece("example")
    assert shape is not None
    assert example is not None
    subject = Subject(example, set_limits(()), Subject(shape, set_limits(())))
    (kept,) = (finding.address for finding in subject.found if finding.rule == rule.id)
    last = list(subject.by_address.values())[-1]
    assert str(last.address) != kept
    tried, places = try_tone(subject, last.address, 0, last.tones[0])
    assert tried.base is subject.base
    assert (rule.id, kept) in places


@pytest.mark.parametrize(
    ("lick", "best", "other"),
    [
        pytest.param(
            "C | 1:0 - 4:2 - 2:1 - 2:4 -",
            "one fret higher is the third",
            "one fret lower is the ninth",
            id="a half step further is no leap, another octave is one",
        ),
        pytest.param(
            "C | 3:5 - 4:2 - 3:1 - 1:0 -",
            "one fret lower is the fifth",
            "the same fret on string 2 is the root",
            id="nearer to what comes after",
        ),
        pytest.param(
            "C | 2:1 - 2:0 - 3:2 - 4:4 -",
            "one fret higher is the fifth",
            "the same fret on string 3 is the major seventh",
            id="two half steps further is a leap",
        ),
    ],
)
def test_a_repair_does_not_widen_the_line(room: Proofroom, lick: str, best: str, other: str) -> None:
    """The two offered leap no further, by more than a half step, from the notes on both sides than it did."""
    finding = only(room.prove(f"key: C major\n\n{lick}"))
    assert finding.message.endswith(f"; {best}")
    assert finding.help.endswith(f"; {other}, too")


def test_what_the_repair_of_a_slip_clears_is_not_asked(room: Proofroom) -> None:
    """B flat for A: the C before it is a blue note on its way to the root, and is asked about no more."""
    finding = only(room.prove("A7 | 3:7 3:5 4:8 - - - . ."))
    assert (finding.address, finding.severity) == ("1.3", Severity.ERROR)
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "4:7"


def test_what_it_does_not_clear_is(room: Proofroom) -> None:
    """In plain style the C is a question of its own, whatever follows it."""
    proof = room.prove("A7 | 3:7 3:5 4:8 - - - . .", "plain")
    assert [finding.address for finding in proof.findings if finding.rule == "harmony/unexplained"] == [
        "1.2",
        "1.3",
    ]
