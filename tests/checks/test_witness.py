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


def test_another_spelling_is_only_noted(room: Proofroom) -> None:
    """D flat for the C sharp of A7 is a note that gives the chord's spelling."""
    finding = only(room.prove("A7 | 5:0 - 5:4 - 4:2 - 4:4 -\n  names | A Db E F#"))
    assert (finding.severity.word, finding.help) == ("note", "Write C#")


def test_the_help_names_the_fret(room: Proofroom) -> None:
    """The nearest fret on the same string that would be the named note."""
    finding = only(room.prove("key: C major\n\nC | 3:0 - 2:1 - 2:3 - 1:0 -\n  names | G C E E"))
    assert finding.help == "2:5 would be E"
