"""What each pitch class is to each chord: the columns of the table of qualities, transposed."""

from __future__ import annotations

import pytest

from lickwright.analysis.changes import change
from lickwright.theory.chord import NO_CHORD, QUALITIES, Chord

# from the root upwards, copied by hand from the table of chord tones, tensions and avoid notes
TABLE = {
    "major": "t.f.tact.f.c",
    "7": "tcfctactcfta",
    "m": "taft.f.tacfc",
    "m7b5": "tact.ft.f.t.",
    "5": "t.ffff.t.ff.",
    "dim7": "t.ct.ct.ct.c",
}


@pytest.mark.parametrize("quality", TABLE)
@pytest.mark.parametrize("root", ["C", "F#", "Bb"])
def test_relation(root: str, quality: str) -> None:
    """One letter a pitch class, the same from every root."""
    made = change(0, Chord.of(root, quality))
    turned = made.relation[made.root :] + made.relation[: made.root]
    assert turned == TABLE[quality]


def test_a_bass_outside_the_chord_is_a_tone() -> None:
    """A7 over F: the F is a tone, and nothing else changes."""
    plain, slash = change(0, Chord.of("A", "7")), change(0, Chord.of("A", "7", "F"))
    assert [n for n in range(12) if plain.relation[n] != slash.relation[n]] == [5]
    assert slash.relation[5] == "t"


def test_every_quality_has_its_tones() -> None:
    """No tone of any chord is anything but a tone."""
    for name in QUALITIES:
        made = change(0, Chord.of("E", name))
        assert {n for n in range(12) if made.relation[n] == "t"} == Chord.of("E", name).semitones


def test_no_chord_has_no_harmony() -> None:
    """Over N.C. nothing is anything."""
    made = change(0, NO_CHORD)
    assert (made.relation, made.harmony) == ("." * 12, False)
