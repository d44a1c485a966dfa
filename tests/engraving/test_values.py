"""Note values against common practice (Gould, *Behind Bars*, ground rules of rhythm, from memory)."""

from fractions import Fraction

import pytest

from lickwright.analysis.notation.values import PRINTED, grid_of, split, tuplet_grid
from lickwright.theory.meter import Meter, parse_meter


def values(meter: str, onset: str, duration: str, *, rest: bool = False) -> str:
    """The lengths in quarters, as text."""
    found = parse_meter(meter)
    assert found is not None
    return " ".join(str(v) for v in split(grid_of(found), Fraction(onset), Fraction(duration), rest))


@pytest.mark.parametrize(
    ("meter", "onset", "duration", "written"),
    [
        ("4/4", "0", "4", "4"),
        ("4/4", "0", "3", "3"),
        ("4/4", "1", "2", "2"),  # half note on beat 2: the usual syncopation
        ("4/4", "1", "3", "3"),
        ("4/4", "1/2", "1", "1"),  # eighth, quarter, eighth
        ("4/4", "1/2", "3/2", "3/2"),
        ("4/4", "3/2", "1", "1/2 1/2"),  # beat 3 is shown
        ("4/4", "3/2", "3/2", "1/2 1"),
        ("4/4", "1", "3/2", "1 1/2"),
        ("4/4", "1/2", "2", "3/2 1/2"),
        ("4/4", "0", "5/2", "2 1/2"),
        ("4/4", "3/4", "1/2", "1/4 1/4"),
        ("4/4", "1/4", "1/2", "1/2"),
        ("3/4", "1/2", "2", "1/2 3/2"),
        ("3/4", "0", "3", "3"),
        ("6/8", "1", "1", "1/2 1/2"),  # beats of compound time are shown
        ("6/8", "0", "3", "3"),
        ("12/8", "0", "6", "6"),
        ("5/4", "0", "5", "3 2"),
        ("7/8", "0", "7/2", "2 3/2"),
        ("2/2", "1", "2", "2"),
    ],
)
def test_notes_show_the_strong_beats(meter: str, onset: str, duration: str, written: str) -> None:
    """A value hides no strong beat but by the usual syncopations."""
    assert values(meter, onset, duration) == written


@pytest.mark.parametrize(
    ("meter", "onset", "duration", "written"),
    [
        ("4/4", "1", "3", "1 2"),
        ("4/4", "0", "3/2", "1 1/2"),
        ("4/4", "1/2", "7/2", "1/2 1 2"),
        ("4/4", "1", "2", "1 1"),  # rests are not syncopated
        ("3/4", "0", "2", "1 1"),
        ("6/8", "0", "3/2", "3/2"),
        ("6/8", "1/2", "1", "1/2 1/2"),
    ],
)
def test_rests_stand_on_their_beats(meter: str, onset: str, duration: str, written: str) -> None:
    """A rest fills up its beat before it goes on to the next."""
    assert values(meter, onset, duration, rest=True) == written


def test_any_stretch_of_sixteenths_adds_up() -> None:
    """In every meter every stretch splits into printable values that make it up."""
    step = Fraction(1, 4)
    for meter in (Meter(4, 4), Meter(3, 4), Meter(6, 8), Meter(7, 8), Meter(9, 16), Meter(11, 16)):
        count = int(meter.length / step)
        for start in range(count):
            for end in range(start + 1, count + 1):
                for rest in (False, True):
                    made = split(grid_of(meter), start * step, (end - start) * step, rest)
                    assert sum(made) == (end - start) * step
                    assert all(value in PRINTED for value in made)


def test_a_tuplet_takes_any_printable_value() -> None:
    """Inside a triplet a dotted value stands wherever it fits."""
    assert split(tuplet_grid(Fraction(1, 2)), Fraction(1, 2), Fraction(1)) == (Fraction(1),)


def test_a_length_without_a_tuplet_number_is_our_mistake() -> None:
    """Thirds outside a tuplet raise."""
    with pytest.raises(ValueError, match="1/3"):
        split(grid_of(Meter(4, 4)), Fraction(0), Fraction(1, 3))
