"""Miscounted rows: the names tell which sound a bar has lost."""

from __future__ import annotations

import pytest
from proofroom import Proofroom, only

NAMES = "A C# E F# A F# E C#"


@pytest.mark.parametrize(
    ("slots", "said"),
    [
        ("5:0 5:4 4:2 3:2 4:4 4:2 5:4", "most likely F#, number 4 of the names, is missing"),
        ("5:0 5:4 4:2 4:4 3:2 4:4 4:2", "most likely C#, number 8 of the names, is missing"),
        ("5:0 5:4 4:2 4:4 2:3 3:2 4:4 4:2 5:4", "most likely 2:3, number 5 of the sounds, is too many"),
        ("5:0 5:4 4:2 4:5 3:2 4:4 4:2", "most likely a sound is missing"),
    ],
)
def test_the_lost_sound_is_named(room: Proofroom, slots: str, said: str) -> None:
    """Where the names fit with one left out, it is that one; where they do not, nothing is guessed."""
    finding = only(room.prove(f"A7 | {slots}\n  names | {NAMES}"))
    assert finding.rule == "rhythm/bar-length"
    assert finding.help.endswith(said)


def test_without_names_the_count_is_all_there_is(room: Proofroom) -> None:
    """Strokes do not tell one sound from another."""
    finding = only(room.prove("A7 | 5:0 5:4 4:2 4:4 3:2 4:4 4:2\n  rh | d u d u d u d u"))
    assert finding.help == "the rows have 8 entries for 7 sounds: most likely a sound is missing"
