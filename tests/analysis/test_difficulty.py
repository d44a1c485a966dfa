"""How hard a piece is."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis.difficulty import MEASURES, Difficulty, measure

SIXTEENTHS = "A | 3:2 3:4 3:2 3:4 3:2 3:4 3:2 3:4 3:2 3:4 3:2 3:4 3:2 3:4 3:2 3:4"


def _of(text: str) -> Difficulty:
    return measure(read_piece(text))


@pytest.mark.parametrize(
    ("fields", "speed"), [("tempo: 120", 8.0), ("tempo: 180", 12.0), ("tempo: half = 60", 8.0)]
)
def test_speed_of_sixteenths(fields: str, speed: float) -> None:
    """Sixteenths at 120 are 8 notes a second, at 180 they are 12: plain arithmetic."""
    assert _of(f"{fields}\nstep: 1/16\n\n{SIXTEENTHS}").speed == pytest.approx(speed)


def test_a_fast_run_is_not_thinned_by_a_long_note() -> None:
    """The fastest four onsets count, wherever they stand."""
    slow = "step: 1/16\ntempo: 120\n\nA | 3:2 3:4 3:2 3:4 3:2 - - - - - - - - - - -"
    assert _of(slow).speed == pytest.approx(8.0)


def test_span_is_measured_on_the_neck() -> None:
    """Frets 5 to 9 of a 648 mm scale are 100.1 mm apart; open strings need no reach."""
    assert _of("A | 4:9+3:5 - - - 5:0+3:5 - - -").span == pytest.approx(100.1, abs=0.05)
    assert _of("A | 5:0+3:9 - - - - - - -").span == 0


@pytest.mark.parametrize(
    ("bar", "shifts"),
    [
        ("3:5 3:7 2:5 2:8 1:5 1:8 - -", 0),
        ("3:2 3:4 2:5 2:8 1:10 1:12 - -", 1),
        ("3:5 3:0 2:12 2:0 1:5 1:0 - -", 2),
    ],
)
def test_a_shift_is_what_a_hand_cannot_reach(bar: str, shifts: int) -> None:
    """Within a hand there is none; there and back are two."""
    assert _of(f"A | {bar}").shifts == shifts


def test_crossings_are_a_share() -> None:
    """One change of string in two steps is a half."""
    assert _of("A | 3:2 - 3:4 - 2:2 - - -").crossings == 0.5


def test_a_harder_lick_scores_higher() -> None:
    """Each measure by itself raises the score: faster, wider, further, more strings, more techniques."""
    plain = "A | 3:5 - 3:7 - 3:5 - 3:7 -"
    easy = _of(f"tempo: 60\n\n{plain}").score
    for harder in (
        f"tempo: 120\n\n{plain}",
        "tempo: 60\n\nA | 3:5+2:9 - 3:7 - 3:5 - 3:7 -",
        "tempo: 60\n\nA | 3:5 - 3:17 - 3:5 - 3:17 -",
        "tempo: 60\n\nA | 3:5 - 2:7 - 3:5 - 2:7 -",
        "tempo: 60\n\nA | 3:5 - h 3:7 - 3:5 - 3:7~ -",
    ):
        assert _of(harder).score > easy, harder


def test_every_measure_is_an_attribute() -> None:
    """The table of measures names what the value holds, and says it in words."""
    difficulty = _of("A | 3:5 - 3:7 - 3:5 - 3:7 -")
    assert set(difficulty.parts) == {each.name for each in MEASURES}
    assert all(each.words.format(getattr(difficulty, each.name)) for each in MEASURES)


def test_an_empty_bar_is_nothing() -> None:
    """Rests alone are no difficulty, and no error."""
    assert _of("A | . . . . . . . .").score == 0
