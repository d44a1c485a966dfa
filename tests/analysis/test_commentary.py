"""The commentary: its fixture read as documentation, every note once, the why of single notes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from scores import TUNES, read_corpus_tune, read_piece

from lickwright.analysis.classifier import analyse, classify
from lickwright.analysis.commentary import Remark, comment, in_bar
from lickwright.model.address import AddressRange

FIXTURE = Path(__file__).with_name("commentary.md").read_text("utf-8")
LICK = re.compile(r"```lick (\S+)\n(.*?)```\n\n((?:- [^\n]*\n)+)", re.DOTALL)


def _line(remark: Remark) -> str:
    return f"- {AddressRange(remark.first, remark.last)}: {remark.proof}"


@pytest.mark.parametrize(("name", "text", "said"), [pytest.param(*f, id=f[0]) for f in LICK.findall(FIXTURE)])
def test_remarks_read_as_the_fixture_says(name: str, text: str, said: str) -> None:
    """Each lick of ``commentary.md`` is commented word for word as printed there."""
    remarks = comment(analyse(read_piece(f"```lick {name}\n{text}```\n")))
    assert [_line(remark) for remark in remarks] == said.splitlines()


def test_the_fixture_is_read_whole() -> None:
    """No lick of it goes untested."""
    assert len(LICK.findall(FIXTURE)) == FIXTURE.count("```lick ")


@pytest.mark.parametrize("name", TUNES[:4])
def test_every_note_stands_in_one_remark(name: str) -> None:
    """On printed tunes the remarks take each note once, voice by voice, in order."""
    piece = read_corpus_tune(name)
    taken = [(n.address, n.tone, n.turn) for remark in comment(analyse(piece)) for n in remark.notes]
    assert sorted(taken) == sorted((r.address, r.tone, r.turn) for r in classify(piece))
    assert len({*taken}) == len(taken)


def test_notes_say_why_they_fit() -> None:
    """Degree, role, place in the bar and reason of each note of a remark."""
    (walk,) = comment(analyse(read_piece("A7 | 5:0 - 5:2 - 5:3 - 5:4 -\nD7 | 5:5 - - - - - - -")))
    assert [(n.degree, n.role, n.place, n.why) for n in walk.notes] == [
        ("1", "chord tone", "on the bar line", "the root of A7"),
        ("2", "tension", "on a beat", "the ninth, a colour that A7 carries"),
        ("b3", "passing note", "on the middle of the bar", "rises a half step to the third"),
        ("3", "chord tone", "on a beat", "the third of A7"),
        ("1", "chord tone", "on the bar line", "the root of D7"),
    ]


def test_a_double_stop_says_why_of_each_note() -> None:
    """The lower note is led to the lower note of what follows."""
    remarks = comment(analyse(read_piece("key: D major\n\nA7 | 3:6+1:5 - 3:5+1:4 - 3:4+1:3 - - -")))
    second = [n for remark in remarks for n in remark.notes if n.address.sound == 2]
    assert [n.why for n in second] == [
        "falls a half step to the flat seventh",
        "falls a half step to the ninth",
    ]


def test_remarks_of_a_bar() -> None:
    """A remark belongs to the bar it begins in, and to its voice."""
    text = "A7 | 5:0 - 5:2 - 5:3 - 5:4 -\n  low | 6:5 - - - - - - -\nD7 | 5:5 - - - 4:4 - - -"
    remarks = comment(analyse(read_piece(text)))
    assert [r.text for r in in_bar(remarks, 1)] == ["walks up with half steps to the root of D7"]
    assert [r.text for r in in_bar(remarks, 2)] == ["the third of D7"]
    assert [r.text for r in in_bar(remarks, 1, lower=True)] == ["the root of A7"]


def test_a_figure_does_not_reach_across_a_long_rest() -> None:
    """The walk that a rest interrupts is no walk."""
    near = comment(analyse(read_piece("key: C major\n\nC | 5:3 4:0 4:2 . 4:3 . . .")))
    far = comment(analyse(read_piece("key: C major\n\nC | 5:3 4:0 . . . 4:2 . .")))
    assert near[0].text.startswith("walks up the scale")
    assert far[0].text == "the root of C; the ninth, a whole step above the root"


def test_a_slip_is_not_talked_over() -> None:
    """One fret off, the same place of the lick is said to have no explanation."""
    right = comment(analyse(read_piece("A | 5:0 - 5:4 - 4:2 - 3:2 -\n | 2:2 - - - 3:2 - - -")))
    wrong = comment(analyse(read_piece("A | 5:0 - 5:4 - 4:2 - 3:3 -\n | 2:2 - - - 3:2 - - -")))
    assert not any(remark.doubt for remark in right)
    assert any(remark.doubt for remark in wrong)
    assert not any("explains" in remark.text for remark in wrong)
