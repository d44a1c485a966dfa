"""Whatever is typed, the reader answers: it never raises, and every place lies in the text."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from lickwright.reading.lesson import read_lesson
from lickwright.reading.manifest import read_manifest
from lickwright.reading.rules import RULES
from lickwright.text import Source

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lickwright.findings import Finding

CALM = settings(max_examples=250, deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow])
LICK = r"""title: Porch step
key: A major
tempo: half = 112
over: porch bars 5-8
position: 2 (bars 1-2), open (bar 3)
shape G: 6:3+5:2+4:0
stet: harmony/unexplained 2.3 #a41f "the clash"

|: A7' D7@3& | 5:0 ring[ 5:4 4:2 s 4:4 ] (3:2 - 2:0)/2 g(2:3) 2:15b17r15~!'^
   rh    | d   u   d   *    u     d   Pm
   names | A   C#  E   F#   A+*   B   C#
   low   | 5:0 - 4:<12> . mute[ 4:x ] h
1. 2/4 D7 | 3:2 h 3:4 /4:5\ G 2:b17 :| x3
"""
PIECES = [
    *"|:;.-+()[]{}<>/\\!'^~@&#*\"0129xhpstrbgA \t\n\r",
    *(" ", " ", "\x00", "\x1b", "\ud7ff", "𝄞", "é", "\ufeff", "\x85"),
    *("ring[", "mute[", "pos5[", "g(", ")/3", ":|", "|:", "`" * 3, "~~~", "lick:", "low |", "rh |"),
    *("1.", "5h7", "2:15b17", "12:7b8", "vary: x", "1.2: 5:3", "\n\n", "\r\n", "999999999999999999"),
]


@st.composite
def mangled(draw: st.DrawFn, text: str) -> str:
    """A text with pieces put in, taken out and moved."""
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        to = draw(st.integers(at, min(len(text), at + 12)))
        text = text[:at] + draw(st.sampled_from([*PIECES, "", text[:at][-20:]])) + text[to:]
    return text


JUNK = st.lists(st.sampled_from(PIECES), max_size=60).map("".join)


def assert_sound(source: Source, findings: Iterable[Finding]) -> None:
    """Every finding has a known rule, a message without a full stop, and places in its text."""
    for finding in findings:
        assert finding.rule in RULES
        assert finding.severity is RULES[finding.rule].severity
        assert finding.message
        assert not finding.message.endswith(".")
        edits = finding.fix.edits if finding.fix else ()
        for span in (finding.span, *(label.span for label in finding.labels), *(e.span for e in edits)):
            assert 0 <= span.start <= span.end <= len(span.source.text)
            assert span.source.path == source.path


def read(text: str) -> tuple[Finding, ...]:
    source = Source("lessons/x.md", text)
    _, findings = read_lesson(source, "x")
    assert_sound(source, findings)
    return findings


@CALM
@given(mangled(LICK) | JUNK | st.text(max_size=80))
@example("low | 5:0 h\n|: | . h\n")
@example("A | g(g(2:3 ) ] [ ((\n")
def test_any_text_in_a_lick(text: str) -> None:
    """A lick that was mangled, and mere noise."""
    read(f"```lick x\n{text}\n```\n")


@CALM
@given(
    mangled(f"# T\n\nA [b](lick:x@1.2).\n\n> - ```lick x\n>   {LICK.splitlines()[0]}\n>   ```\n") | JUNK,
    st.sampled_from(["", "progression x", "chorus x", "excerpt", "scale x", "neck", "open-strings", "tuner"]),
)
def test_any_text_in_a_lesson(text: str, kind: str) -> None:
    """A lesson that was mangled; noise as the inside of every other block."""
    read(f"```{kind}\n{text}" if kind else text)


MANIFEST = """[course]
title = "T"
author = '''A'''
[guitar]
frets = 22
[[unit]]
title = 'U'
lessons = ["a.md"]
"""


@CALM
@given(mangled(MANIFEST) | JUNK)
@example("[" * 5000)
@example("a = " + "[" * 5000)
@example("[[unit]]\n[unit]\n")
@example("unit = 3\ncourse = []")
@example("a.b.c = { d = [ { e = 1 } ] }")
def test_any_text_as_a_manifest(text: str) -> None:
    """A manifest that was mangled, and mere noise."""
    source = Source("course.toml", text)
    _, findings = read_manifest(source)
    assert_sound(source, findings)


def test_a_place_outside_is_noticed() -> None:
    """The check itself can fail."""
    source = Source("x", "abc")
    _, findings = read_lesson(Source("x", "```lick\n```"), "x")
    broken = [type(f)(f.rule, f.severity, f.message, source.span(1, 9)) for f in findings]
    with pytest.raises(AssertionError):
        assert_sound(source, broken)


@pytest.mark.parametrize(
    "piece",
    [*"(x|;- ", "4:5 ", "ring[ ", "g(", ") ", "] ", "h ", ":|", "5h7 ", "4:5+", "a ", "/2 "],
)
@pytest.mark.timeout(30)
def test_a_long_line_takes_linear_time(piece: str) -> None:
    """A long line of anything anywhere is read in one pass: work by the square would run out of time."""
    heads = ("A | ", "A | 5:0\n rh | ", "over: ", "stet: a/b ", "A ", "position: 2 (", "ladder: ", "")
    for head in heads:
        findings = read(f"```lick x\n{head}{piece * (40_000 // len(piece))}\n```\n")
        assert len(findings) < 100


def test_a_megabyte_line_and_a_lick_of_500_bars() -> None:
    """Sizes beyond music are read, not refused."""
    long = "x" * 1_000_000
    assert [f.rule for f in read(f"```lick x\ntitle: {long}\n\nA | 5:0 ; {long}\n```\n")] == []
    assert [f.rule for f in read(f"```lick x\nA | {long} 5:0\n```\n{long}\n")] == ["syntax/slot"]
    slots = read("```lick x\nA | " + "4:5 " * 250_000 + "\n  rh | " + "d " * 250_000 + "\n```\n")
    assert [f.message for f in slots] == ["the bar has more than 4096 slots: the rest of it was not read"]
    bars = "A | 5:0 5:4 4:2 s 4:4  3:2 - 2:0 2:2\n   rh | d u d * u d u\n" * 500
    lesson, findings = read_lesson(Source("x.md", f"```lick x\n{bars}```\n"), "x")
    assert not findings
    assert len(lesson.blocks[0].block.bars) == 500
