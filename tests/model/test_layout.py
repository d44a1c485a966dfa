"""Slots laid out in time."""

from __future__ import annotations

from fractions import Fraction

import pytest

from lickwright.model.address import Address
from lickwright.model.music import Tuplet
from lickwright.model.slots import JoinKind
from lickwright.model.timeline import play

F = Fraction


def lick(bars: str, fields: str = "") -> str:
    return f"```lick one\n{fields}\n{bars}\n```\n"


def onsets(book) -> list[tuple[str, Fraction, Fraction]]:
    music = book.piece("one").music
    return [(str(p.sound.address), p.start, p.end) for p in play(music)]


def test_holds_lengthen_and_tie_over_the_bar_line(resolved):
    """A hold at the start of a bar goes on with the sound of the bar before."""
    book, found = resolved(lick("A | 5:0 - 4:2 - 3:2 - - -\n  | - - - - 2:2 - - -"))
    assert not found
    assert onsets(book) == [("1.1", 0, 1), ("1.2", 1, 2), ("1.3", 2, 6), ("2.1", 6, 8)]
    values = book.piece("one").music.bars[1].upper.values
    assert [(v.duration, v.tied, v.sound) for v in values] == [
        (2, True, Address(1, 3)),
        (2, False, Address(2, 1)),
    ]


@pytest.mark.parametrize(
    ("group", "meter", "ratio", "lengths"),
    [
        ("(4:0 5:4 5:3)/2", "4/4", (3, 2), [F(1, 3)] * 3),
        ("(4:0 - 5:3)/2", "4/4", (3, 2), [F(2, 3), F(1, 3)]),
        ("(4:0 5:4)", "4/4", None, [F(1, 4)] * 2),
        ("(4:0 5:4 5:3)/3", "4/4", None, [F(1, 2)] * 3),
        ("(4:0 5:4 5:3 5:2 5:0)/4", "4/4", (5, 4), [F(2, 5)] * 5),
        ("(4:0 5:4)/3", "6/8", (2, 3), [F(3, 4)] * 2),
        ("(4:0 5:4 5:3 5:2)/3", "6/8", (4, 3), [F(3, 8)] * 4),
        ("(4:0 (5:4 5:3) 5:2)/2", "4/4", (3, 2), [F(1, 3), F(1, 6), F(1, 6), F(1, 3)]),
    ],
)
def test_groups_part_their_time_evenly(resolved, group, meter, ratio, lengths):
    """Shares, tuplet figures and nested groups (the language contract, section 2)."""
    book, _ = resolved(lick(f"A | {group}", f"meter: {meter}\n"))
    line = book.piece("one").music.bars[0].upper
    first = line.elements[0]
    assert (isinstance(first, Tuplet), getattr(first, "number", None), getattr(first, "normal", None)) == (
        (True, *ratio) if ratio else (False, None, None)
    )
    assert [value.duration for value in line.values] == lengths


def test_shuffle_puts_the_second_eighth_at_two_thirds(resolved):
    """Swing moves what is played, never what is written; a group parts its own played time."""
    bars = "A | 5:0 5:2 (5:4 4:0 4:2)/2 4:4 - (3:2 3:4) 3:2"
    book, found = resolved(lick(bars, "feel: shuffle\n"))
    assert not found
    starts = [start for _, start, _ in onsets(book)]
    assert starts == [0, F(2, 3), 1, F(4, 3), F(5, 3), 2, 3, 3 + F(1, 3), 3 + F(2, 3)]
    written = [sound.onset for sound in book.piece("one").music.bars[0].upper.sounds]
    assert written == [0, F(1, 2), 1, F(4, 3), F(5, 3), 2, 3, F(13, 4), F(7, 2)]


def test_joins_go_string_by_string(resolved):
    """A string the second sound leaves alone rings on; one it names anew is struck with it."""
    book, found = resolved(lick("A | 2:2+3:2 h 2:5 3:2 s 3:4 . . . ."))
    assert not found
    first, second, _, fourth = book.piece("one").music.bars[0].upper.sounds
    assert [tone.rings_through for tone in first.tones] == [0, 1]
    assert [(t.link, t.struck) for t in second.tones] == [(JoinKind.HAMMER, False)]
    assert [(t.link, t.struck) for t in fourth.tones] == [(JoinKind.SLIDE, False)]


def test_a_join_may_lead_over_the_bar_line(resolved):
    """At the end of a bar a join leads to the first sound of the next."""
    book, found = resolved(lick("A | 3:2 - - - - - - - h\n  | 3:4 - - - - - - -"))
    assert not found
    assert book.piece("one").music.bars[1].upper.sounds[0].joined is JoinKind.HAMMER


def test_bends_sound_the_pitch_they_reach(resolved):
    """String 3 fret 7 is D4 (62), bent a whole step E4 (64): theory of the fretboard."""
    book, found = resolved(lick("A | 3:7b9 3:7b9r7 3:7pb9r7 3:7b7.5 3:7 3:b9 3:r7 -"))
    assert not found
    paths = [sound.tones[0].path for sound in book.piece("one").music.bars[0].upper.sounds]
    assert paths == [(62, 64), (62, 64, 62), (64, 62), (62, F(125, 2)), (62,), (62, 64), (64, 62)]
    assert [s.tones[0].struck for s in book.piece("one").music.bars[0].upper.sounds][4:] == [
        True,
        False,
        False,
    ]


def test_a_ringing_string_can_be_bent_late(resolved):
    """In a let-ring bracket a string sounds until it is used again: D4 goes up to E4 under another note."""
    book, found = resolved(lick("A | ring[ 3:7 2:5 3:b9 - 3:r7 - ] . ."))
    assert not found
    sounds = book.piece("one").music.bars[0].upper.sounds
    assert [sound.tones[0].path for sound in sounds] == [(62,), (64,), (62, 64), (64, 62)]


def test_dead_notes_do_not_last(resolved):
    """After a dead note a hold is a rest."""
    book, _ = resolved(lick("A | 4:x - 3:2 - - - - -"))
    values = book.piece("one").music.bars[0].upper.values
    assert [(v.duration, v.sound is None) for v in values] == [(F(1, 2), False), (F(1, 2), True), (3, False)]


@pytest.mark.parametrize(
    ("bars", "rule"),
    [
        ("A | - 3:2 - - - - - -", "rhythm/hold-at-start"),
        ("A | 3:2 h 3:2 - - - - - -", "hands/join-stands-still"),
        ("A | 3:b4 - - - - - - -", "syntax/late-bend"),
        ("A | 3:5 - - 3:r2 - - - -", "hands/late-bend-direction"),
        ("A | 3:5 - 3:b4 - - - - -", "hands/late-bend-direction"),
        ("A | 3:5b7 - 3:r4 - - - - -", "hands/late-bend-direction"),
        ("A | 3:7 ring[ 2:5 3:b9 - ] - - - -", "syntax/late-bend"),
        ("A | ring[ 3:7 2:5 ] 3:b9 - - - - -", "syntax/late-bend"),
        ("A | 3:2 - - - - - - -\n|: | - - - - 2:3 - - - :|", "rhythm/hold-at-repeat"),
    ],
)
def test_what_does_not_fit_is_found(resolved, bars, rule):
    """Faults that show only when time is laid out."""
    _, found = resolved(lick(bars))
    assert [finding.rule for finding in found] == [rule]


def test_two_voices_keep_their_own_time(resolved):
    """Joins and holds live in one voice."""
    text = "A | 1:5 - 1:4 1:2 2:5 - 2:2 -\n  low | 5:0 - 4:2 - 5:0 - 4:2 -"
    book, found = resolved(lick(text))
    assert not found
    assert len(book.piece("one").music.bars[0].lines) == 2
    assert [address for address, _, _ in onsets(book)][:3] == ["1.1", "low1.1", "1.2"]
