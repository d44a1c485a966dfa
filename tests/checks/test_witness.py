"""The second witness catches every slip, inside the key or not, and says nothing when all is right."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only, told

FRETS = ("5:2", "5:4", "4:2", "4:4", "3:2", "3:4", "2:2", "2:5")
NAMES = "B C# E F# A B C# E"
DEGREES = "2 3 5 6 1 9 3 5"


def _lick(frets: list[str], row: str) -> str:
    return f"A | {' '.join(frets)}\n  {row}"


@pytest.mark.parametrize("row", [f"names | {NAMES}", f"degrees | {DEGREES}"])
def test_the_right_witness_is_silent(room: Proofroom, row: str) -> None:
    """Names and degrees that fit give nothing."""
    assert told(room.prove(_lick(list(FRETS), row))) == []


@pytest.mark.parametrize("kind", ["names", "degrees"])
@pytest.mark.parametrize("place", range(len(FRETS)))
def test_every_slip_is_caught(room: Proofroom, place: int, kind: str) -> None:
    """One note at a time is played one, two, three or five frets off; the witness alone speaks."""
    row = f"{kind} | {NAMES if kind == 'names' else DEGREES}"
    string, fret = map(int, FRETS[place].split(":"))
    for off in (-2, -1, 1, 2, 3, 5):
        if fret + off < 0:
            continue
        slipped = f"{string}:{fret + off}"
        frets = [*FRETS[:place], slipped, *FRETS[place + 1 :]]
        finding = only(room.prove(_lick(frets, row)))
        assert (finding.rule, finding.span.text, finding.address) == (
            f"witness/{kind}",
            slipped,
            f"1.{place + 1}",
        )


def test_bends_harmonics_and_dead_notes(room: Proofroom) -> None:
    """A bend is named by its last top, a harmonic by what sounds, a dead note by nothing."""
    lick = "A7 | 3:7b9r7 - 5:<12> - 3:x - 3:7pb9 -\n  names | {}"
    assert told(room.prove(lick.format("E A * E"))) == []
    assert told(room.prove(lick.format("D A * E"))) == [("witness/names", "3:7b9r7")]
    assert told(room.prove(lick.format("E E * E"))) == [("witness/names", "5:<12>")]


def test_a_chord_names_each_note_in_the_order_written(room: Proofroom) -> None:
    """One of two notes may be left out, and the other is still compared."""
    lick = "A | 2:2+3:2 - - - 5:0 - - -\n  names | {} A"
    assert told(room.prove(lick.format("C#+A"))) == []
    assert told(room.prove(lick.format("*+A"))) == []
    assert told(room.prove(lick.format("A+C#"))) == [("witness/names", "2:2"), ("witness/names", "3:2")]


def test_another_spelling_is_no_other_note(room: Proofroom) -> None:
    """D flat for the C sharp of A7 is a matter of spelling, with its reason and a correction."""
    finding = only(room.prove("A7 | 5:0 - 5:4 - 4:2 - 4:4 -\n  names | A Db E F#"))
    assert (finding.rule, finding.help) == ("spelling/chord-note", "Write C#")
    assert finding.message == ("the names row says D flat, and 5:4 is written C sharp: the third of A7")
    assert finding.fix is not None
    assert finding.fix.edits[0].text == "C#"


def test_the_lower_voice_has_rows_of_its_own(room: Proofroom) -> None:
    """A name under the lower voice is held against the lower voice."""
    lick = "A | 1:5 - 1:4 - 2:5 - 2:2 -\n  names | A G# E C#\n  low | 5:0 - 4:2 - 5:0 - 4:2 -\n  names | {}"
    assert told(room.prove(lick.format("A E A E"))) == []
    finding = only(room.prove(lick.format("A D A E")))
    assert (finding.rule, finding.span.text, finding.address) == ("witness/names", "4:2", "low1.2")


def test_a_capo_is_counted_in(room: Proofroom) -> None:
    """Frets count from the capo, and names are what sounds."""
    lick = "capo: 2\nkey: B major\n\nB | 5:0 - 5:4 - 4:2 - 3:2 -\n  names | {}"
    assert told(room.prove(lick.format("B D# F# B"))) == []
    finding = only(room.prove(lick.format("A C# E A")))
    assert (finding.rule, finding.address) == ("witness/moved-bar", "1.1")
    assert finding.message == "every note of bar 1 lies two half steps above what the names row says"


def test_a_tied_note_keeps_its_name(room: Proofroom) -> None:
    """A note that is held over a bar line is named where it begins, and where it is joined again."""
    lick = "A | 5:0 - 4:2 - 3:2 - - -\n  names | A E A\n  | - - 5:4 - 5:0 - - -\n  names | {} A"
    assert told(room.prove(lick.format("C#"))) == []
    assert told(room.prove(lick.format("D"))) == [("witness/names", "5:4")]


SHIFTED = [
    ("names", "A E F# A F# E E A", "1.2", "1.6"),
    ("names", "A C# C# E F# A F# A", "1.3", "1.7"),
    ("degrees", "1 5 6 1 6 5 5 1", "1.2", "1.6"),
]


@pytest.mark.parametrize(("row", "entries", "first", "last"), SHIFTED)
def test_a_row_that_slips_is_told_once(
    room: Proofroom, row: str, entries: str, first: str, last: str
) -> None:
    """One entry left out and another put in is one finding, with both places."""
    lick = f"A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:0\n  {row} | {entries}"
    finding = only(room.prove(lick))
    assert (finding.rule, finding.address) == ("witness/shifted-row", first)
    assert first in finding.message
    assert last in finding.message


def test_notes_that_differ_each_by_itself_are_each_told(room: Proofroom) -> None:
    """Three wrong names that no shift and no interval explains stay three findings."""
    proof = room.prove("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 5:0\n  names | A D E G B F# E A")
    assert [rule for rule, _ in told(proof)] == ["witness/names"] * 3


def test_degrees_from_another_root_name_the_root(room: Proofroom) -> None:
    """Degrees that all count from D over A are told once, and the hint says D."""
    finding = only(room.prove("A7 | 4:0 - 4:4 - 3:2 - 3:4 -\n  degrees | 1 3 5 13"))
    assert finding.rule == "witness/moved-bar"
    assert finding.help == "The degrees fit when counted from D: look at the chord, A7"


def test_the_help_names_the_fret(room: Proofroom) -> None:
    """The nearest fret on the same string that would be the named note; where it was tried, the fix does."""
    finding = only(room.prove("key: C major\n\nC | 3:0 - 2:1 - 2:3 - 1:0 -\n  names | G C E E"))
    assert finding.fix is not None
    assert finding.fix.title == "2:5: two frets higher is E"
    hammered = only(room.prove("A | 5:0 - 4:2 h 4:3 3:2 - 2:2 -\n  names | A E D# A C#"))
    assert (hammered.help, hammered.fix) == ("4:1 would be D sharp", None)
