"""Notes and lengths as a guitarist says them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from lickwright.checks.wording import degree_name, degree_of, held_for, note_name
from lickwright.theory.chord import NO_CHORD, Chord
from lickwright.theory.key import Key, parse_key


def _key(name: str) -> Key:
    key = parse_key(name)
    assert key is not None
    return key


@pytest.mark.parametrize(
    ("quarters", "beat", "said"),
    [
        ("1/2", "1", "half a beat"),
        ("1/4", "1", "less than a beat"),
        ("1", "1", "one beat"),
        ("2", "1", "held two beats"),
        ("3", "3/2", "held two beats"),
        ("3/2", "1", "held one beat and a half"),
        ("5/2", "1", "held 2.5 beats"),
        ("12", "1", "held 12 beats"),
    ],
)
def test_held_for(quarters: str, beat: str, said: str) -> None:
    """Lengths are told in beats of the meter."""
    assert held_for(Fraction(quarters), Fraction(beat)) == said


def test_note_name() -> None:
    """Chord and key decide the spelling; a plain letter is called natural."""
    assert note_name(61, _key("D minor"), Chord.of("A", "7")) == "C sharp"
    assert note_name(58, _key("F major"), Chord.of("C", "7")) == "B flat"
    assert note_name(60, _key("A major"), Chord.of("D", "major")) == "C natural"


def test_degrees() -> None:
    """Over a chord from its root, over N.C. from the key's tonic."""
    assert degree_of(55, Chord.of("A", "7"), _key("D major")) == "b7"
    assert degree_of(55, NO_CHORD, _key("A major")) == "b7"
    assert degree_name("b7") == "flat seventh"
    assert degree_name("##4") == "##4"
