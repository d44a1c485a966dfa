"""How lengths and bends are said, by the note values and the steps themselves."""

from __future__ import annotations

from fractions import Fraction

import pytest
from music21 import duration

from lickwright.terms.bends import SPOKEN, read_amount, say_amount
from lickwright.terms.lengths import LENGTHS, say_length


@pytest.mark.parametrize(("quarters", "name"), LENGTHS.items())
def test_a_length_has_the_name_that_music21_gives_it(quarters: Fraction, name: str) -> None:
    """Plain, dotted and triplet values; its 32nd is our thirty-second."""
    heard = duration.Duration(quarters)
    kind = {"32nd": "thirty-second", "16th": "sixteenth"}.get(heard.type, heard.type)
    dotted = "dotted " if heard.dots else ""
    triplet = "triplet " if heard.tuplets else ""
    assert f"{triplet}{dotted}{kind}" == name


@pytest.mark.parametrize(
    ("quarters", "said"),
    [
        (Fraction(1, 2), "an eighth"),
        (Fraction(1), "a quarter"),
        (Fraction(2), "a half note"),
        (Fraction(3), "a dotted half note"),
        (Fraction(5, 2), "a half note and an eighth"),
        (Fraction(5, 3), "a quarter and a triplet quarter"),
        (Fraction(2, 5), "2/5 of a quarter"),
        (Fraction(11, 5), "11/5 quarters"),
    ],
)
def test_a_length_is_said_with_its_article(quarters: Fraction, said: str) -> None:
    """One value, two tied ones, or a part of a quarter."""
    assert say_length(quarters) == said


def test_what_is_said_of_a_bend_is_read_as_the_same() -> None:
    """What the table and the reading of prose have in common agrees; past the table it is counted."""
    read = {size: read_amount(said.removeprefix("a ")) for size, said in SPOKEN.items()}
    known = {size: found for size, found in read.items() if found is not None}
    assert len(known) >= 4
    assert all(size == found for size, found in known.items())
    assert say_amount(Fraction(5)) == "two and a half steps"
    assert say_amount(Fraction(9)) == "9 half steps"
