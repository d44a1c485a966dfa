"""Lines as typed: the place marked, a fix carried out, long lines kept within bounds."""

from __future__ import annotations

from lickwright.findings import Edit
from lickwright.pages.typed import Run, is_near, lines_of, mended_lines
from lickwright.text import Source

TEXT = Source("lessons/x.md", "one\nA7 | 3:3 2:0\nthree\n" + "x" * 5000 + "\n" + "a\n" * 20)


def test_a_place_in_a_line():
    """The line has its number and three runs."""
    (line,) = lines_of(TEXT.span(9, 12))
    assert (line.number, line.runs) == (2, (Run("A7 | "), Run("3:3", marked=True), Run(" 2:0")))


def test_a_place_over_lines():
    """Each line of the place is shown, at most six."""
    lines = lines_of(TEXT.span(1, 6))
    assert [[run.text for run in line.runs if run.marked] for line in lines] == [["ne"], ["A7"]]
    assert len(lines_of(TEXT.span(0, len(TEXT.text)))) == 6


def test_a_very_long_line():
    """A line of thousands of signs is cut around its place."""
    start = TEXT.line_start(4) + 2500
    (line,) = lines_of(TEXT.span(start, start + 3))
    assert sum(len(run.text) for run in line.runs) < 400
    assert line.runs[1] == Run("xxx", marked=True)
    (line,) = lines_of(TEXT.span(TEXT.line_start(4), TEXT.line_start(5) - 1))
    assert sum(len(run.text) for run in line.runs) < 700


def test_a_fix():
    """All edits on the line are carried out, from left to right, the new text marked."""
    edits = (Edit(TEXT.span(13, 16), "2:1"), Edit(TEXT.span(9, 12), "3:4"))
    (line,) = mended_lines(edits)
    assert "".join(run.text for run in line.runs) == "A7 | 3:4 2:1"
    assert [run.text for run in line.runs if run.marked] == ["3:4", "2:1"]
    assert mended_lines(()) == ()


BLOCK = Source("lessons/y.md", "```lick a\nA | 3:3 2:0\n names | B B\n```\n\n```lick b\nA | 3:3\n```\n")


def of(text: str, after: int = 0):
    start = BLOCK.text.index(text, after)
    return BLOCK.span(start, start + len(text))


def test_the_line_of_the_bar_and_that_of_the_row():
    """What explains a place in the same block is shown under it, marked; two places of a line share it."""
    lines = lines_of(of("3:3"), [of("B"), of("2:0")])
    assert [line.number for line in lines] == [2, 3]
    assert [[run.text for run in line.runs if run.marked] for line in lines] == [["3:3", "2:0"], ["B"]]
    assert "".join(run.text for run in lines[0].runs) == "A | 3:3 2:0"


def test_another_block_is_not_near():
    """A place in the next block, in another file or far off is not shown with this one."""
    other = of("3:3", after=BLOCK.text.index("lick b"))
    assert not is_near(of("3:3"), other)
    assert [line.number for line in lines_of(of("3:3"), [other])] == [2]
    assert not is_near(of("3:3"), TEXT.span(9, 12))
    assert not is_near(TEXT.span(0, 3), TEXT.span(TEXT.line_start(20), TEXT.line_start(20) + 1))
    assert is_near(of("3:3"), of("3:3"))
