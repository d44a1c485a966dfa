"""Near-duplicates, by hashes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import pytest
from proofroom import Proofroom, only, told

from lickwright.checks.likeness import Likeness, Notes, Part, find_like
from lickwright.model.music import Line, MusicBar
from lickwright.theory.meter import Meter

BAR = "A | 5:0 5:4 4:2 {} 3:2 4:4 4:2 {}\n"
MARKS = "ABCDEFGH"


def _part(frets: Sequence[int], frame: str = "same") -> Part:
    notes: tuple[Notes, ...] = tuple(((1, fret, float(fret)),) for fret in frets)
    meter = Meter(4, 4)
    bar = MusicBar(1, meter, True, meter.length, (), Line((), (), meter.length))
    return Part(None, bar, frame, (), notes)  # type: ignore[arg-type]


def _places(parts: list[Part], *, equal: bool = False) -> list[tuple[int, int, int | None]]:
    found = find_like(parts, 6, equal=equal)
    return [(parts.index(x.earlier), parts.index(x.later), x.at) for x in found]


def test_one_note_off_is_found() -> None:
    """At its place, with the earlier part as the model."""
    assert _places([_part((1, 2, 3, 4, 5, 6)), _part((1, 2, 3, 9, 5, 6))]) == [(0, 1, 3)]


def test_two_notes_off_and_short_parts_are_not() -> None:
    """Likeness is one note of six or more."""
    assert _places([_part((1, 2, 3, 4, 5, 6)), _part((1, 2, 8, 9, 5, 6))]) == []
    assert _places([_part((1, 2, 3, 4, 5)), _part((1, 2, 3, 9, 5))]) == []


def test_another_frame_is_another_bar() -> None:
    """Rhythm and chords are to be equal."""
    assert _places([_part((1, 2, 3, 4, 5, 6)), _part((1, 2, 3, 9, 5, 6), "other")]) == []


def test_the_rarer_note_is_the_odd_one() -> None:
    """Where two bars agree against an earlier one, the earlier one is told."""
    parts = [_part((1, 2, 3, 9, 5, 6)), _part((1, 2, 3, 4, 5, 6)), _part((1, 2, 3, 4, 5, 6, 7)[:6])]
    found = list(find_like(parts, 6, equal=False))
    assert [(x.earlier is parts[1], x.later is parts[0], x.at) for x in found] == [(True, True, 3)]


def test_three_notes_at_one_place_are_meant() -> None:
    """A figure that moves is no slip."""
    assert _places([_part((1, 2, 3, last, 5, 6)) for last in (4, 5, 7)]) == []


def test_equal_parts_are_yielded_where_asked_for() -> None:
    """Once for each later one."""
    parts = [_part((1, 2, 3, 4, 5, 6)) for _ in range(3)]
    found: list[Likeness] = list(find_like(parts, 6, equal=True))
    assert [(x.earlier is parts[0], x.at) for x in found] == [(True, None)] * 2
    assert list(find_like(parts, 6, equal=False)) == []


def test_it_is_linear() -> None:
    """Doubling the parts doubles what is hashed: a count, not a clock."""

    class Counted(tuple):  # type: ignore[type-arg]
        """Notes that count how often they are hashed."""

        __slots__ = ()
        hashed = 0

        def __hash__(self) -> int:
            Counted.hashed += 1
            return tuple.__hash__(self)

        def __eq__(self, other: object) -> bool:
            return tuple.__eq__(self, other)  # type: ignore[arg-type]

    counts = []
    for size in (50, 100, 200):
        Counted.hashed = 0
        parts = [_part((n, n + 1, n, n + 2, n, n + 3)) for n in range(size)]
        parts = [Part(p.piece, p.bar, p.frame, (), tuple(map(Counted, p.notes))) for p in parts]
        list(find_like(parts, 6, equal=False))
        counts.append(Counted.hashed)
    assert all(later <= 2 * earlier for earlier, later in pairwise(counts))


def test_a_slip_in_a_repeated_bar_is_shown_with_both(room: Proofroom) -> None:
    """A planted slip: the finding stands at the odd note and points at the other."""
    good, slip = BAR.format("4:4", "5:4"), BAR.format("4:2", "5:4")
    finding = only(room.prove(good + good + slip))
    assert finding.rule == "rhythm/near-duplicate"
    assert (finding.address, finding.span.text, finding.labels[0].text) == ("3.4", "4:2", "4:4 in bar 1")


def test_a_slip_that_a_rule_hears_is_told_there(room: Proofroom) -> None:
    """F natural over A is foreign by itself: one cause, one finding."""
    good, slip = BAR.format("4:4", "5:4"), BAR.format("4:3", "5:4")
    assert told(room.prove(good + good + slip)) == [("harmony/unexplained", "4:3")]


def test_an_answer_at_the_end_is_left_alone(room: Proofroom) -> None:
    """The last note of a bar may lead elsewhere."""
    text = BAR.format("4:4", "5:4") + BAR.format("4:4", "5:2")
    assert [f.rule for f in room.prove(text).findings if f.rule == "rhythm/near-duplicate"] == []


def test_licks_alike_are_not_told_bar_by_bar(room: Proofroom) -> None:
    """One cause, one finding: the lick as a whole."""
    licks = (f"```lick {name}\n{BAR.format(note, '5:4')}A | 5:0 - - - - - - -\n```\n" for name, note in
             (("one", "4:4"), ("two", "4:2")))  # fmt: skip
    assert only(room.prove("\n".join(licks))).rule == "course/near-duplicate"


def test_the_same_notes_with_other_strokes_are_another_drill(room: Proofroom) -> None:
    """A picking study may turn the strokes round."""
    licks = (
        f"```lick {name}\n{BAR.format('4:4', '5:4')}  rh | {strokes}\n```\n"
        for name, strokes in (("one", "d u d u d u d u"), ("two", "u d u d u d u d"))
    )
    assert [f.rule for f in room.prove("\n".join(licks)).findings if "duplicate" in f.rule] == []


_NAMED = "```lick {name}\nA | 5:0 5:4 4:2 4:4 3:2 4:4 4:2 {last}\n  names | A C# E F# A F# E C#\n```\n"


@pytest.mark.parametrize("lasts", [("5:3", "5:4"), ("5:4", "5:3")])
def test_a_faulty_lick_and_its_mended_copy_are_told_of_once(room: Proofroom, lasts: tuple[str, str]) -> None:
    """The wrong note is told where it stands; that the other has the right one says nothing new."""
    text = "".join(_NAMED.format(name=name, last=last) for name, last in zip("ab", lasts, strict=True))
    assert told(room.prove(text)) == [("witness/names", "5:3")]


def test_the_note_that_differs_is_named(room: Proofroom) -> None:
    """Its address, and what it is in either lick."""
    lick = "```lick {}\nA | 5:0 5:4 4:2 {} 3:2 4:4 4:2 5:4\n```\n"
    finding = only(room.prove(lick.format("one", "4:4") + lick.format("two", "4:2")))
    assert finding.message == (
        "the lick is “one” but for one note: 1.4 is E natural (4:2) here, F sharp (4:4) there"
    )
