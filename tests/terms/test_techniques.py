"""Words for techniques."""

from __future__ import annotations

import pytest

from lickwright.terms.techniques import NAMES, TECHNIQUES, list_spoken


@pytest.mark.parametrize(
    ("words", "spoken"),
    [
        ("Bend the third string a whole step.", {"bend"}),
        ("a pre-bend, let down", {"pre-bend", "bend", "release"}),
        ("hammer on and pull off", {"hammer-on", "pull-off"}),
        ("Hammer-ons, and a pulloff", {"hammer-on", "pull-off"}),
        ("Palm-muted\nwith the heel of the hand", {"palm mute"}),
        ("a muted string", {"dead note"}),
        ("Double stops in sixths", {"double stop"}),
        ("the ferry bell", set()),
        ("bended knees, a springy rail", set()),
    ],
)
def test_prose_speaks_of_techniques(words: str, spoken: set[str]) -> None:
    """Whole words count, hyphens and line ends do not; the longest form is meant."""
    assert list_spoken(words) == spoken


def test_a_technique_is_spoken_of_by_its_name() -> None:
    """Every technique is found under the name that tables print."""
    assert [name for name in NAMES if name not in list_spoken(f"the {name} here")] == []


def test_names_are_given_once() -> None:
    """No technique twice, no form twice in a row of the table."""
    assert len(set(NAMES)) == len(NAMES)
    assert all(len(set(technique.forms)) == len(technique.forms) for technique in TECHNIQUES)


@pytest.mark.parametrize("words", ["the bell rings", "tap your foot", "shake the hand out", "a pair of oars"])
def test_words_of_every_day_are_loose(words: str) -> None:
    """They may speak of a technique; where that must be certain, they do not count."""
    assert list_spoken(words)
    assert list_spoken(words, loose=False) == set()


def test_no_form_is_both() -> None:
    """A form is firm or loose, never both, whatever it speaks of."""
    firm = {form for technique in TECHNIQUES for form in technique.forms}
    assert firm.isdisjoint(form for technique in TECHNIQUES for form in technique.loose)
