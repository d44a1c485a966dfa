"""What the notes do, for the student and for the editor."""

from lickwright.analysis.classifier import analyse
from lickwright.analysis.commentary import comment, in_bar
from lickwright.model.address import Address
from lickwright.pages.edition import Edition
from lickwright.pages.remarks import Reading, role_line, why_it_fits


def test_each_bar_says_what_its_notes_do(slips: Edition) -> None:
    """One sentence a bar in plain words; the slip is owned up to."""
    piece = slips.music.piece("plank")
    analysis = analyse(piece)
    said = why_it_fits(piece.music, analysis)
    assert [line.partition(":")[0] for line in said] == ["Bar 1", "Bar 2", "Bar 3"]
    remarks = [remark.text for remark in in_bar(comment(analysis), 2)]
    assert remarks
    assert said[1] == f"Bar 2: {'; '.join(remarks)}."


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
