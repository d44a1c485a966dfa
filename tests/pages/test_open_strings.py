"""The table of open strings against music21's keys, in any tuning, with a capo."""

from __future__ import annotations

from dataclasses import replace

import music21
import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.tuning import parse_tuning
from lickwright.model.course import Settings
from lickwright.model.fields import Provenance, Tempo
from lickwright.pages.blocks import open_strings_table
from lickwright.theory.key import parse_key

CIRCLE = {
    "major": ("C", "G", "D", "A", "E", "B", "F#", "Db", "Ab", "Eb", "Bb", "F"),
    "minor": ("A", "E", "B", "F#", "C#", "G#", "D#", "Bb", "F", "C", "G", "D"),
}
BLUE = {3: "♭3", 6: "♭5", 10: "♭7"}
NUMBERS = ("1", "2", "3", "4", "5", "6", "7")


def settings(guitar: Guitar) -> Settings:
    return Settings(parse_key("A major"), "straight", Tempo(100), guitar, Provenance("own"))


def wanted(tonic: str, mode: str, midi: int) -> str:
    """What an open string is in a key, by music21."""
    key = music21.key.Key(tonic.replace("b", "-"), mode)
    note = music21.pitch.Pitch(midi=midi).pitchClass
    classes = [p.pitchClass for p in key.pitches[:7]]
    if note in classes:
        number = NUMBERS[classes.index(note)]
        return "♭" + number if mode == "minor" and number in "367" else number
    above = (note - music21.pitch.Pitch(tonic.replace("b", "-")).pitchClass) % 12
    return f"{BLUE[above]}, blue note" if above in BLUE else "outside"


@pytest.mark.parametrize("mode", ["major", "minor"])
@pytest.mark.parametrize(
    ("tuning", "capo"), [("E2 A2 D3 G3 B3 E4", 0), ("E2 A2 D3 G3 B3 E4", 2), ("D2 G2 D3 G3 B3 D4", 5)]
)
def test_round_the_circle_of_fifths(tuning: str, capo: int, mode: str) -> None:
    """Every cell of twelve keys, in the order given; the last column counts the strings that may ring."""
    guitar = replace(Guitar(), tuning=parse_tuning(tuning), capo=capo)
    keys = tuple(parse_key(f"{tonic} {mode}") for tonic in CIRCLE[mode])
    table = open_strings_table(keys, settings(guitar))
    opens = [music21.pitch.Pitch(name).midi + capo for name in reversed(tuning.split())]
    assert [row[0] for row in table.rows] == [key.display for key in keys]
    for tonic, row in zip(CIRCLE[mode], table.rows, strict=True):
        cells = [wanted(tonic, mode, midi) for midi in opens]
        assert list(row[1:-1]) == cells
        assert row[-1] == f"{sum(cell.lstrip('♭') in NUMBERS for cell in cells)} of 6"
    slipped = [wanted(CIRCLE[mode][0], mode, midi + 1) for midi in opens]
    assert list(table.rows[0][1:-1]) != slipped  # a planted half step is seen


def test_heads_caption_and_legend() -> None:
    """Strings are named as they sound; a capo is told; the legend says what a number and the words mean."""
    plain = open_strings_table((parse_key("A major"),), settings(Guitar()))
    assert plain.head[1:4] == ("string 1, E", "string 2, B", "string 3, G")
    capo = open_strings_table((parse_key("B major"),), settings(replace(Guitar(), capo=2)))
    assert capo.head[1:4] == ("string 1, F♯", "string 2, C♯", "string 3, A")
    assert capo.caption.endswith(", capo at 2")
    for word in ("number alone", "blue note", "outside"):
        assert word in capo.legend
