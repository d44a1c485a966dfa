"""Repeats, endings, pickups."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lickwright.model.bar import Margin
from lickwright.model.timeline.repeats import unfold


def bars(text: str) -> list[Margin]:
    """``|:`` opens, ``:|`` closes, ``1.`` an ending: one word a bar, signs joined by ``+``."""
    margins = []
    for word in text.split():
        signs = word.split("+")
        endings = tuple(int(n) for s in signs for n in s.split(".") if s[0].isdigit() and n.isdigit())
        times = next((int(s[1:]) for s in signs if s[0] == "x"), None)
        margins.append(Margin(opens="|:" in signs, closes=":|" in signs, endings=endings, times=times))
    return margins


@pytest.mark.parametrize(
    ("signs", "order"),
    [
        ("- - -", [0, 1, 2]),
        ("- :|", [0, 1, 0, 1]),
        ("- |: :| -", [0, 1, 2, 1, 2, 3]),
        ("|:+:|+x3", [0, 0, 0]),
        ("|: - 1.+:| 2.", [0, 1, 2, 0, 1, 3]),
        ("|: 1.2.+:| 3. -", [0, 1, 0, 1, 0, 2, 3]),
        ("|: 1. :| 2. - -", [0, 1, 2, 0, 3, 4, 5]),
        ("|: 1.+:| 2.+:| -", [0, 1, 0, 2, 3]),
        ("- :| - :|", [0, 1, 0, 1, 2, 3, 0, 1, 2, 3]),
    ],
)
def test_order_of_playing(signs, order):
    """As printed repeats are played (common practice; the language contract)."""
    assert list(unfold(bars(signs), pickup=False).order) == order


def test_a_first_ending_of_another_number_is_played():
    """Signs that do not fit never raise (the reader has told them)."""
    assert unfold(bars("2.+:| -"), pickup=False).order == (0, 1)


def test_a_pickup_is_not_repeated():
    """A repeat without an opening goes back to bar 1."""
    assert unfold(bars("- - :|"), pickup=True).order == (0, 1, 2, 1, 2)


def test_a_pickup_comes_again_where_the_closing_bar_leaves_its_time():
    """No beat is lost between the short bar and the repeat (common practice)."""
    assert unfold(bars("- - :|"), pickup=True, short=frozenset({2})).order == (0, 1, 2, 0, 1, 2)


def test_agrees_with_music21():
    """music21's own expansion of repeats and endings is the witness."""
    for signs in ("- |: :| -", "|: - 1.+:| 2.", "|:+:|+x3", "|: 1. :| 2. - -"):
        assert expanded(bars(signs)) == list(unfold(bars(signs), pickup=False).order), signs
    planted = bars("- - :| -")  # the opening repeat sign forgotten
    assert expanded(planted) != list(unfold(bars("- |: :| -"), pickup=False).order)


def expanded(margins: list[Margin]) -> list[int]:
    """The order in which music21 plays bars with these signs."""
    from music21 import bar, note, repeat, spanner, stream

    part = stream.Part()
    opened: list[tuple[str, list[stream.Measure]]] = []
    ends = unfold(margins, pickup=False).ending_ends
    for index, margin in enumerate(margins):
        measure = stream.Measure(number=index + 1)
        measure.append(note.Note(60 + index, quarterLength=4))
        if margin.opens:
            measure.leftBarline = bar.Repeat("start")
        if margin.closes:
            measure.rightBarline = bar.Repeat("end", times=margin.times)
        if margin.endings:
            opened.append((",".join(map(str, margin.endings)), []))
        if opened:
            opened[-1][1].append(measure)
        part.append(measure)
        if index in ends:
            number, measures = opened.pop()
            part.insert(0, spanner.RepeatBracket(measures, number=number))
    return [n.pitch.midi - 60 for n in repeat.Expander(part).process().flatten().notes]


MARGINS = st.builds(
    Margin,
    opens=st.booleans(),
    closes=st.booleans(),
    endings=st.lists(st.integers(1, 8), max_size=3).map(tuple),
    times=st.none() | st.integers(0, 9),
)


@given(st.lists(MARGINS, max_size=12), st.booleans(), st.frozensets(st.integers(0, 11)))
@settings(max_examples=300, deadline=None)
def test_no_signs_make_it_raise(margins, pickup, short):
    """Whatever an author writes there is an order of playing, of bars that are there."""
    unfolded = unfold(margins, pickup=pickup, short=short)
    assert set(unfolded.order) <= set(range(len(margins)))
    assert bool(margins) == bool(unfolded.order)
