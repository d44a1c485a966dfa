"""What sounds at a string and a fret, against the handbook's table."""

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning
from lickwright.theory.pitch import Pitch


def disagreements(guitar: Guitar, rows: list[dict[str, str]]) -> list[str]:
    """Cells of the handbook's table that the guitar sounds otherwise."""
    faults = []
    for row in rows:
        for fret in (5, 7, 12, 15, 22):
            name, midi, hertz = row[f"fr {fret}"].split()
            sounding = guitar.midi(int(row["string"]), fret)
            pitch = Pitch.parse(name)
            assert pitch is not None
            if sounding != int(midi) or pitch.midi != sounding or abs(pitch.hertz() - float(hertz)) > 0.006:
                faults.append(f"string {row['string']} fret {fret}: {sounding}")
    return faults


def test_frets_of_the_handbook(table) -> None:
    """Names, MIDI numbers and frequencies along all six strings are the handbook's."""
    assert disagreements(Guitar(), table("open_strings")) == []


def test_a_wrong_tuning_is_caught(table) -> None:
    """The comparison sees a sixth string that is a whole step low."""
    dropped = parse_tuning("D2 A2 D3 G3 B3 E4")
    assert dropped is not None
    faults = disagreements(Guitar(dropped), table("open_strings"))
    assert len(faults) == 5
    assert all(fault.startswith("string 6") for fault in faults)


def test_neighbouring_strings() -> None:
    """Fret 5 is the next open string, fret 4 between strings 3 and 2 (common practice)."""
    guitar = Guitar()
    for string in (6, 5, 4, 3, 2):
        assert guitar.midi(string, 4 if string == 3 else 5) == guitar.open_midi(string - 1)


def test_capo() -> None:
    """Frets count from the capo, which raises what sounds and shortens the neck."""
    guitar = Guitar(capo=3)
    assert guitar.open_midi(6) == 43
    assert guitar.midi(6, 2) == 45
    assert guitar.has_fret(19)
    assert not guitar.has_fret(20)
    assert not guitar.has_fret(-1)
    assert guitar.highest_fret == 19


def test_other_counts_of_strings() -> None:
    """Seven strings have a string 7, six have not."""
    tuning = parse_tuning("B1 E2 A2 D3 G3 B3 E4")
    assert tuning is not None
    guitar = Guitar(tuning, frets=24)
    assert guitar.strings == 7
    assert guitar.has_string(7)
    assert not guitar.has_string(0)
    assert guitar.open_midi(7) == 35
    assert not Guitar().has_string(7)
    for string in (0, 8):
        with pytest.raises(IndexError):
            guitar.midi(string, 0)
