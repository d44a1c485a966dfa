"""Numbers and facts in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from lickwright.model.fields import Tempo
from lickwright.pages.counting import count, listed
from lickwright.pages.facts import key_words, lesson_facts, tempo_words
from lickwright.pages.player_data import embed
from lickwright.terms.numbers import roman
from lickwright.theory.key import parse_key
from lickwright.theory.meter import parse_meter


def test_counts():
    """Small numbers are words, one thing is one thing."""
    assert [count(n, "bar") for n in (0, 1, 2, 12, 13)] == [
        "no bars",
        "one bar",
        "two bars",
        "twelve bars",
        "13 bars",
    ]
    assert [listed(x) for x in ([], ["A"], ["A", "D"], ["A", "D", "E"])] == ["", "A", "A and D", "A, D and E"]


def test_roman_positions():
    """Positions to the end of the neck, as method books number them (common practice)."""
    expected = "I II III IV V VI VII VIII IX X XI XII XIII XIV XV XVI XVII XVIII XIX XX XXI XXII XXIII XXIV"
    assert [roman(n) for n in range(1, 25)] == expected.split()


@pytest.mark.parametrize(
    ("tempo", "meter", "words"),
    [
        (Tempo(168), "4/4", "168"),
        (Tempo(112), "2/2", "half = 112"),
        (Tempo(96), "6/8", "dotted quarter = 96"),
        (Tempo(96, Fraction(1, 2)), "4/4", "eighth = 96"),
        (Tempo(96, Fraction(1)), "6/8", "96"),
    ],
)
def test_tempo_words(tempo, meter, words):
    """A tempo says its beat where that is not the quarter."""
    assert tempo_words(tempo, parse_meter(meter)) == words


@pytest.mark.parametrize(
    ("key", "capo", "words"),
    [
        ("A major", 0, "A major"),
        ("A major", 2, "A major, G shapes, capo 2"),
        ("Bb major", 3, "B♭ major, G shapes, capo 3"),
        ("C# minor", 4, "C♯ minor, Am shapes, capo 4"),
    ],
)
def test_key_words(key, capo, words):
    """With a capo the head prints the key that sounds and the shapes that the hand plays."""
    assert key_words(parse_key(key), capo) == words


def test_json_cannot_leave_its_element():
    """No sign that could end the script element is left, and the value is the same when read."""
    assert embed({"a": "</script><!-- & é"}) == '{"a":"\\u003c/script\\u003e\\u003c!-- \\u0026 é"}'


def test_a_scale_does_not_speak_for_a_lesson(edition):
    """The head names the keys and tempi of the licks; a lesson of scales alone names theirs."""
    lick = next(piece for piece in edition.music.pieces if piece.kind == "lick")
    minor = replace(lick.music, key=parse_key("A minor"))
    scale = replace(lick, kind="scale", music=minor, tempo=Tempo(200))
    assert lesson_facts([lick, scale]) == lesson_facts([lick])
    assert lesson_facts([scale]) == "A minor, 200"
    assert lesson_facts([lick, replace(scale, kind="chorus")]).endswith("and A minor, 120 to 200")
