"""What the notes do, for the student and for the editor."""

import pytest

from lickwright.analysis.classifier import analyse
from lickwright.analysis.commentary import comment, in_bar
from lickwright.instrument.guitar import Guitar
from lickwright.model.address import Address
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Stet, Tempo
from lickwright.model.music import Piece
from lickwright.model.timeline import resolve
from lickwright.pages.edition import Edition
from lickwright.pages.remarks import Reading, role_line, why_it_fits
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key


def test_each_bar_says_what_its_notes_do(slips: Edition) -> None:
    """One sentence a bar in plain words; a bar in which nothing begins goes with the one before."""
    piece = slips.music.piece("plank")
    analysis = analyse(piece)
    said = why_it_fits(piece.music, analysis)
    assert [line.partition(":")[0] for line in said] == ["Bars 1 and 2", "Bar 3"]
    remarks = [remark.text for remark in in_bar(comment(analysis), 1)]
    assert remarks
    assert said[0] == f"Bars 1 and 2: {'; '.join(remarks)}."


def test_a_slip_is_for_the_editor(slips: Edition) -> None:
    """The student reads nothing of a note without a reason, or that it stands outside on purpose."""
    piece = slips.music.piece("plank")
    analysis = analyse(piece)
    assert not any("nothing explains" in line for line in why_it_fits(piece.music, analysis))
    assert "nothing explains" in role_line(Reading.of(piece), Address(2, 4)).text
    stet = Stet("harmony/unexplained", "meant", Address(2, 4))
    assert any("outside on purpose" in line for line in why_it_fits(piece.music, analysis, (stet,)))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("N.C. | 3:2 - 3:4 - 2:2 - - -\nA | 3:2 - - - - - - -", ("Bar 2: the root of A.",)),
        ("A | 3:2 - 2:2 - 1:0 - - -\nA | - - - - - - - -", ("Bars 1 and 2: arpeggio of A up.",)),
        (
            "A | . . . . . . . .\n  low | 5:0 - 5:4 - 4:2 - - -",
            ("Bar 1: arpeggio of A up.",),
        ),
        (
            "A | 3:2 - - - - - - -\n  low | 5:0 - - - 3:2 - - -",
            ("Bar 1: the root of A; below it the root of A in octaves.",),
        ),
    ],
)
def test_what_a_bar_says(text: str, said: tuple[str, ...]) -> None:
    """Nothing over no chord; held bars with the one before; the lower voice by itself is below nothing."""
    piece = _piece(text)
    assert why_it_fits(piece.music, analyse(piece)) == said


def test_the_role_line_of_a_bar(slips: Edition) -> None:
    """Every note of the bar with its degree, its role and its place; the one that is meant is told apart."""
    line = role_line(Reading.of(slips.music.piece("plank")), Address(2, 4))
    assert [note.place for note in line.notes] == ["2.1", "2.2", "2.3", "2.4"]
    assert [mark.text for mark in line.degrees] == ["6", "5", "3", "♭2"]
    (meant,) = line.meant
    assert (meant.place, meant.degree) == ("2.4", "♭2")
    assert meant.words.startswith("unexplained, on the middle of the bar")
    assert "chord tone" in line.notes[1].words


def test_a_whole_bar_means_no_single_note(slips: Edition) -> None:
    """A finding about a bar marks none of its notes; a bar that is not there has no line."""
    reading = Reading.of(slips.music.piece("plank"))
    assert role_line(reading, Address(3)).meant == ()
    assert role_line(reading, Address(9)) is None


def test_a_remark_that_began_in_another_bar_says_so() -> None:
    """The editor who looks at bar 2 is not told of bar 1 as if it were there."""
    reading = Reading.of(_piece("A7 | 5:0 - 5:2 - 5:3 - 5:4 -\nD7 | 5:5 - - - 4:4 - - -"))
    lines = [role_line(reading, Address(bar, 1)) for bar in (1, 2)]
    assert [line.text for line in lines if line is not None] == [
        "Walks up with half steps to the root of D7",
        "From bar 1, walks up with half steps to the root of D7; the third of D7",
    ]


def _piece(text: str) -> Piece:
    key = parse_key("A major")
    assert key is not None
    settings = Settings(key, "straight", Tempo(120), Guitar(), Provenance("own"))
    lesson, _ = read_lesson(Source("lessons/one.md", f"```lick example\n{text}\n```\n"), "one")
    book, _ = resolve(Course("Test", "us", settings, (Unit("Unit", (lesson,)),)))
    return book.pieces[0]
