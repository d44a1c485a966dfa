"""What a proof still asks of an explained note, by style; blue notes and what excuses them."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis import classify


def _tiers(text: str, style: str = "country") -> list[int | None]:
    return [role.tier for role in classify(read_piece(text, style))]


@pytest.mark.parametrize(
    ("text", "tier"),
    [
        pytest.param("key: C major\n\nC | 3:0 - 3:8 - 3:9 - - -", 2, id="rises a half step"),
        pytest.param("key: C major\n\nC | 2:5 - 2:9 - 2:8 - - -", 1, id="leapt to, falls a half step"),
        pytest.param("key: C major\n\nC | 2:8 - 2:7 - 2:8 - - -", None, id="neighbour below"),
        pytest.param("key: C major\n\nC | 2:8 - 2:9 - 2:8 - - -", 1, id="neighbour above, out of the key"),
        pytest.param("key: C major\n\nF | 2:10 - 2:11 - 2:10 - - -", None, id="flat seventh above the sixth"),
        pytest.param("key: C major\n\nC | 2:5 - 2:9 - 2:5 - - -", 0, id="leapt to and from"),
        pytest.param("key: C major\n\nC | 2:5 - 2:9 p 2:8 - - -", None, id="pulled off into rest"),
        pytest.param("key: C major\n\nG7 | 2:3 - 2:9 - 2:8 - - -", 2, id="flat ninth of a dominant"),
        pytest.param("key: C major\n\nAm | 2:8 - 2:7 - 2:5 - - -", 2, id="sixth of a minor chord in passing"),
    ],
)
def test_tier_of_the_second_note(text: str, tier: int | None) -> None:
    """Led notes are left alone, loose ones only noted."""
    assert _tiers(text, "plain")[1] == tier


@pytest.mark.parametrize(
    ("text", "number", "asked"),
    [
        pytest.param("A | 5:0 - 4:2 - 3:5 - 4:2 -", 2, (True, True, False), id="flat third alone"),
        pytest.param(
            "A7 | 3:2 - 1:0 - 2:1 - 3:2 -", 2, (True, False, False), id="flat third falling to the root"
        ),
        pytest.param(
            "A | 3:2 - 1:5 - 1:3 - 1:0 -", 2, (True, False, False), id="flat seventh from the tonic"
        ),
        pytest.param("A | 5:0 - 5:3 - 5:4 - - -", 1, (False, False, False), id="flat third into the third"),
        pytest.param(
            "A | 1:8 - 2:5 - 2:8 - 1:5 -", 0, (True, False, False), id="in company of the flat seventh"
        ),
        pytest.param("A | 5:0 - 5:3b3.5 - 4:2 - 5:0 -", 1, (False, False, False), id="curled"),
    ],
)
def test_blue_notes_by_style(text: str, number: int, asked: tuple[bool, bool, bool]) -> None:
    """Plain style asks, country asks where nothing makes the note idiomatic, a blues never does."""
    found = tuple(_tiers(text, style)[number] == 1 for style in ("plain", "country", "blues"))
    assert found == asked


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        pytest.param("A7 | 3:2 - - - - - 2:1 -\nA7 | 2:1 - 2:2 - 3:2 - - -", False, id="rises in the end"),
        pytest.param("A7 | 3:2 - - - - - 2:1 -\nA7 | 2:1 - 2:5 - 3:2 - - -", True, id="leaps in the end"),
    ],
)
def test_a_repeated_blue_third_goes_where_its_last_goes(text: str, asked: bool) -> None:
    """Struck again over the bar line it is led as its last repetition is."""
    assert (_tiers(text)[1] in (0, 1)) is asked


def test_bluegrass_is_as_country() -> None:
    """The lone flat third of an arpeggio is put to the author in bluegrass too."""
    text = "A | 5:0 - 4:2 - 3:5 - 4:2 -"
    assert _tiers(text, "bluegrass") == _tiers(text, "country")


def test_a_turn_that_is_written_twice_is_meant() -> None:
    """The same three notes in two bars are no slip; in one of them they are asked about."""
    bar = "3:2 - 1:5 - 1:1 - 1:0 -"
    once = _tiers(f"A | {bar}\n  | 3:2 - 1:5 - 2:2 - 1:0 -", "plain")
    twice = _tiers(f"A | {bar}\n  | {bar}", "plain")
    assert 1 in once
    assert 1 not in twice


def test_a_repeat_sign_is_no_second_time() -> None:
    """A slip that is only repeated is still one slip."""
    assert 1 in _tiers("A |: 3:2 - 1:5 - 1:1 - 1:0 - :|", "plain")


def test_an_avoid_note_on_a_beat_left_by_leap_is_loose() -> None:
    """The fourth of a major chord on beat 2, left by leap, is noted; left by step it is not."""
    assert _tiers("key: C major\n\nC | 2:5 - 2:6 - 3:0 - - -")[1] == 2
    assert _tiers("key: C major\n\nC | 2:5 - 2:6 - 2:5 - - -")[1] is None


@pytest.mark.parametrize(
    ("cells", "tier"),
    [
        pytest.param("2:8 2:5 2:3 2:10 2:7 2:5 2:8 -", 1, id="three notes"),
        pytest.param("2:8 2:5 2:3 2:1 2:10 2:7 2:5 2:3\nC | 2:8 - - - - - - -", None, id="four notes"),
    ],
)
def test_three_notes_moved_may_be_chance(cells: str, tier: int | None) -> None:
    """G E D moved up a whole step comes upon F sharp; G E D C moved up means it."""
    roles = classify(read_piece(f"key: C major\n\nC | {cells}", "plain"))
    assert [role.tier for role in roles if role.pitch == 66] == [tier]
