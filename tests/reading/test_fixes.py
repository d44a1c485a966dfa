"""A fix, taken over as it stands, makes its finding go away."""

from __future__ import annotations

import pytest

from lickwright.findings import Finding
from lickwright.reading.fields import OF_THE_COURSE
from lickwright.reading.lesson import read_lesson
from lickwright.reading.lick import FIELDS
from lickwright.reading.manifest_keys import SECTIONS
from lickwright.text import Source

FIXED = [
    ("A | 3:2h3:4", "A | 3:2 h 3:4"),
    ("A | 3:2h4p2", "A | 3:2 h 3:4 p 3:2"),
    ("A | 3:2/4", "A | 3:2 s 3:4"),
    ("A | 3:2 H 3:4", "A | 3:2 h 3:4"),
    ("A | 3:2 h3:4", "A | 3:2 h 3:4"),
    ("A | 12:3", "A | 3:12"),
    ("A | 5:0 r --", "A | 5:0 . - -"),
    ("A | 4:X 4:5'! 2:3,3:4 2:15~~ 4.5", "A | 4:x 4:5!' 2:3+3:4 2:15~ 4:5"),
    ("Am7-5 | 5:0", "Am7b5 | 5:0"),
    ("d7 | 5:0", "D7 | 5:0"),
    ("A | 5:0\n  RH | R", "A | 5:0\n  rh | a"),
    ("A | 5:0\n  names | c#", "A | 5:0\n  names | C#"),
    ("A | 5:2 h - 5:4", "A | 5:2 - h 5:4"),
    ("A | (4:2 4:4) /2", "A | (4:2 4:4)/2"),
    ("A | (4:2 4:4)4:5 4:2ring[ 4:4 ]", "A | (4:2 4:4) 4:5 4:2 ring[ 4:4 ]"),
    ("A | Ring[ 4:4 ]", "A | ring[ 4:4 ]"),
    ("A | ring[ 4:2 ring[ 4:4 ]", "A | ring[ 4:2 ] ring[ 4:4 ]"),
    ("A | 5:0 |", "A | 5:0 "),
    ("A | mute[ 5:0 5:2", "A | mute[ 5:0 5:2 ]"),
    ("A | 5:0 ring[ 5:2 - ; to here", "A | 5:0 ring[ 5:2 - ] ; to here"),
    ("A | 5:0 mute[\nA | 5:2 5:4\nA | 5:0", "A | 5:0 mute[\nA | 5:2 5:4 ]\nA | 5:0"),
    ("A | mute 5:0 5:2 ] 5:4", "A | mute[ 5:0 5:2 ] 5:4"),
    ("A | ring 5:0 5:2 ]\n  lh | 0 2", "A | ring[ 5:0 5:2 ]\n  lh | 0 2"),
    ("A | PM 5:0 5:2 ]", "A | mute[ 5:0 5:2 ]"),
    ("A | 5:0 | 5:2", "A | 5:0 \n| 5:2"),
    ("5:0 5:2", "| 5:0 5:2"),
    ("key: A\nA | 5:0", "key: A major\n\nA | 5:0"),
    ("titel: x\n\nA | 5:0\xa05:2", "title: x\n\nA | 5:0 5:2"),
    ("position: 9 bars 1-2\n\nA | 5:0", "position: 9 (bars 1-2)\n\nA | 5:0"),
    ("feel: shufle\nsource: trad: a book\ntempo: 96 bpm\n\nA | 5:0", None),
]


def mend(text: str, findings: tuple[Finding, ...]) -> str:
    """Take over every fix, the last first."""
    edits = [edit for finding in findings if finding.fix for edit in finding.fix.edits]
    for edit in sorted(edits, key=lambda edit: edit.span.start, reverse=True):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text


def read(text: str) -> tuple[Finding, ...]:
    return read_lesson(Source("x.md", text), "x")[1]


@pytest.mark.parametrize(("wrong", "right"), FIXED, ids=[wrong.splitlines()[0] for wrong, _ in FIXED])
def test_the_right_form(wrong: str, right: str | None) -> None:
    """What is offered is what a guitarist would write, and reads clean."""
    text = f"```lick x\n{wrong}\n```\n"
    findings = read(text)
    assert findings
    assert all(finding.fix for finding in findings)
    mended = mend(text, findings)
    assert read(mended) == ()
    if right is not None:
        assert mended == f"```lick x\n{right}\n```\n"


@pytest.mark.parametrize("text", ["A | 5h7", "A | 12:7b8", "A | 2:15b", "A | 4:5 17"])
def test_nothing_is_guessed(text: str) -> None:
    """Where more than one form could be meant none is offered, only the rule."""
    findings = read(f"```lick x\n{text}\n```\n")
    assert [finding.fix for finding in findings] == [None]
    assert findings[0].help


@pytest.mark.parametrize("word", ["v", "V", "^"])
def test_a_sign_of_two_ways_is_not_guessed(word: str) -> None:
    """V is the upstroke of print and an arrow down: both letters are named, and neither is offered."""
    (finding,) = read(f"```lick x\nA | 5:0 5:2\n  rh | {word} u\n```\n")
    assert (finding.rule, finding.span.text, finding.fix) == ("syntax/row-entry", word, None)
    assert "a downstroke is d, an upstroke u" in finding.help


@pytest.mark.parametrize("word", OF_THE_COURSE)
def test_a_key_of_the_course_is_no_slip_of_a_field(word: str) -> None:
    """It is said where it belongs; another field is not offered for it."""
    (finding,) = read(f"```lick x\n{word}: beginner\n\nA | 5:0\n```\n")
    assert (finding.rule, finding.fix) == ("syntax/unknown-field", None)
    assert finding.help == f"{word} is said of the whole course: it stands under [course] in course.toml"


def test_the_keys_of_the_course_are_those_of_the_manifest() -> None:
    """What the manifest knows and a lick does not."""
    assert {*OF_THE_COURSE} == {*SECTIONS["course"].keys} - {*FIELDS}


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("lick:tt@bar 1", "lick:tt@1"),
        ("lick:tt@bar1", "lick:tt@1"),
        ("lick: tt @ bars 1 - 2", "lick:tt@1-2"),
        ("lick:tt bar 2", "lick:tt@2"),
        ("lick: tt@1.1", "lick:tt@1.1"),
        ("lick:tt@low1.1-low1.2", "lick:tt@low1.1-1.2"),
        ("lick:t t@1", None),
        ("lick:tt 2", None),
        ("lick:tt@bar 1 beat 2", None),
        ("lick:tt@beat2", None),
    ],
)
def test_an_address_is_mended_to_an_address(wrong: str, right: str | None) -> None:
    """What is offered reads clean; where nobody knows what was meant nothing is."""
    text = f"[It]({wrong}) is a lick."
    (finding,) = read(text)
    assert finding.rule == "course/link"
    if right is None:
        assert finding.fix is None
    else:
        assert mend(text, (finding,)) == f"[It]({right}) is a lick."
        assert read(mend(text, (finding,))) == ()
