"""Whatever stands in a lesson, it resolves and plays."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.timeline import play, resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

BLOCKS = (
    (
        "```lick a\npickup: 1/8\n\n | 5:4\nA7 |: (4:2 4:4 3:2)/2 - h 3:4 . ring[ 2:2 - ]\n"
        "   names | E F# A B C#\n1. D7 | - 3:2 - 2:3 - - - - :|\n2. D7 | 5:5 - - - - - -\n```\n"
    ),
    "```lick b\nvary: a\nover: D7\n1.2: .\n2.1: 5:3\n```\n",
    "```lick c\nmeter: 6/8\nfeel: shuffle\n\nA | (1:5 1:4)/3 3:7b9r7 - 3:b9\n   low | 5:0 - - 4:2 - -\n```\n",
    "```progression p\n|: A | D7 A@4 :| x3\n1. E7 | A\n```\n",
    "```chorus k\nover: p\nlicks: a rest 2 b x2 c\n```\n",
    "```excerpt\nof: a\nshow: 0.1-1.4\n```\n",
    "```excerpt\nof: c\nshow: low1.1-1.2\n```\n",
    "[E](lick:a@1.2-2.1) and [all](lick:k@3)\n",
)
SETTINGS = Settings(parse_key("A major"), "two-beat", Tempo(120), Guitar(), Provenance("own"))  # type: ignore[arg-type]


@st.composite
def lessons(draw: st.DrawFn) -> str:
    """Some of the blocks in any order, with a few characters changed."""
    text = "\n".join(draw(st.permutations(BLOCKS))[: draw(st.integers(1, len(BLOCKS)))])
    for _ in range(draw(st.integers(0, 4))):
        at = draw(st.integers(0, len(text) - 1))
        text = text[:at] + draw(st.sampled_from([*"0123456789:|().-[]hps!xrb \n~@", ""])) + text[at + 1 :]
    return text


@given(lessons())
@settings(max_examples=150, deadline=None)
def test_no_lesson_makes_it_raise(text):
    """Faults are findings; what is left of the music plays in order, inside its bars."""
    lesson, _ = read_lesson(Source("lessons/one.md", text), "one")
    book, _ = resolve(Course("Test", "us", SETTINGS, (Unit("Unit", (lesson,)),)))
    for piece in book.pieces:
        sounds = play(piece.music)
        assert [s.start for s in sounds] == sorted(s.start for s in sounds)
        if all(line.filled == bar.length for bar in piece.music.bars for line in bar.lines):
            assert all(s.end >= s.start for s in sounds)
