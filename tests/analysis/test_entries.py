"""Entries: repeats and loops, degrees as spelled, conditional tensions, ends of phrases."""

from __future__ import annotations

import pytest
from scores import read_piece

from lickwright.analysis import Role, RoleOf, classify


def _entry(text: str, address: str, style: str = "country") -> RoleOf:
    return next(r for r in classify(read_piece(text, style)) if str(r.address) == address)


def test_the_last_note_of_a_loop_sees_the_first_each_time() -> None:
    """G sharp at the repeat sign leads to A, also when the lick is over: it is played round and round."""
    looped = _entry("key: F major\n\nF |: 3:2 - 2:1 - 1:1 - 3:1 - :|", "1.4")
    once = _entry("key: F major\n\nF | 3:2 - 2:1 - 1:1 - 3:1 -", "1.4")
    assert looped.passes == (Role.APPROACH, Role.APPROACH)
    assert (once.role, once.passes) == (Role.BLUE, (Role.BLUE,))
    assert (looped.ends_phrase, once.ends_phrase) == (False, True)


def test_a_loop_that_does_not_lead_back_is_told() -> None:
    """The planted fault: a fret too low, the note leads nowhere either time."""
    assert Role.APPROACH not in _entry("key: F major\n\nF |: 3:2 - 2:1 - 1:1 - 3:6 - :|", "1.4").passes


def test_the_first_note_of_a_repeat_sees_the_last() -> None:
    """Reached by step round the repeat sign, the first note is a passing note the second time."""
    entry = _entry("key: C major\n\nC |: 2:6 - 2:8 - 1:0 - 2:6 2:7 :|\n  | 2:8 - - - - - - -", "1.1")
    assert len(entry.passes) == 2


BACK = "key: C major\n\nC |: 3:5 - 2:5 - 2:8 - {} :|\n  | 3:0 - - - 2:5 - - -"


def test_a_short_note_needs_explaining_once() -> None:
    """B at the repeat sign leads back to C the first time and leaps on the second: the better counts."""
    entry = _entry(BACK.format("3:4 -").replace("3:0", "2:8"), "1.4")
    assert entry.role.explained


def test_a_held_note_needs_explaining_each_time() -> None:
    """The flat ninth held on beat 3 leads back to C; on to G it does not, and that counts."""
    text = "key: C major\n\nC |: 3:5 - 2:5 - 3:6 - - - :|\n  | 1:0 - - - 2:5 - - -"
    entry = _entry(text, "1.3", "plain")
    assert entry.tier in (0, 1)
    assert len(set(entry.passes)) > 1 or not entry.role.explained


def test_endings_are_seen_both_ways() -> None:
    """The note before the endings has a role each time, by what follows."""
    text = "A |: 5:0 - 5:4 - 4:2 - 4:1 -\n1. A | 4:2 - - - - - - - :|\n2. A | 5:4 - - - 5:0 - - -"
    entry = _entry(text, "1.4")
    assert len(entry.passes) == 2
    assert entry.role is Role.NEIGHBOUR


@pytest.mark.parametrize(
    ("text", "degree", "interval"),
    [
        pytest.param("key: C major\n\nC | 2:6 - 2:7 - 2:8 - - -", "#4", 6, id="sharp fourth rising"),
        pytest.param("key: C major\n\nC | 2:8 - 2:7 - 2:6 - - -", "b5", 6, id="flat fifth falling"),
        pytest.param("key: C major\n\nC | 3:0 - 3:1 - 3:2 - - -", "#5", 8, id="sharp fifth rising"),
        pytest.param("key: C major\n\nC | 3:2 - 3:1 - 3:0 - - -", "b6", 8, id="flat sixth falling"),
        pytest.param("key: C major\n\nC7 | 2:4 - 2:5 - - - - -", "#2", 3, id="sharp ninth into the third"),
        pytest.param("key: C major\n\nCdim7 | 3:2 - - - - - - -", "bb7", 9, id="chord tone by the chord"),
        pytest.param("key: C major\n\nN.C. | 3:3 - 3:2 - - - - -", "b7", 10, id="over N.C. from the tonic"),
    ],
)
def test_degrees_are_spelled(text: str, degree: str, interval: int) -> None:
    """A degree is the one the staff spells: up raised, down lowered, a chord tone by its chord."""
    roles = classify(read_piece(text))
    found = next(r for r in roles if r.interval == interval)
    assert found.degree == degree


@pytest.mark.parametrize(
    ("text", "resolved"),
    [
        pytest.param("key: F major\n\nC7 | 2:5 - 2:2 - 2:1 - - -", True, id="flat ninth to the root"),
        pytest.param("key: F major\n\nC7 | 2:5 - 2:2 - 1:3 - - -", False, id="flat ninth leaping off"),
        pytest.param("key: F major\n\nC7 | 2:5 - 1:3 - 2:1 - - -", None, id="no tension"),
    ],
)
def test_conditional_tensions_resolve_or_not(text: str, resolved: bool | None) -> None:
    """A tension that asks for resolution says whether it gets it."""
    assert _entry(text, "1.2").resolved is resolved


def test_double_stops_have_two_entries_a_sound() -> None:
    """Both notes of a double stop are listed once, whatever lines they stand in."""
    roles = classify(read_piece("A |: 3:6+1:5 - 3:4+1:4 - 3:2+1:2 - 3:2 - :|"))
    assert [(str(r.address), r.tone) for r in roles] == [
        ("1.1", 0), ("1.1", 1), ("1.2", 0), ("1.2", 1), ("1.3", 0), ("1.3", 1), ("1.4", 0),
    ]  # fmt: skip
    assert {len(r.passes) for r in roles} == {2}
