"""Scales under the hand, held against music21's scales, the luthier's rule and a search of every way."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product

import pytest
from music21 import scale as m21

from lickwright.instrument.guitar import Guitar
from lickwright.instrument.hand import WIDEST
from lickwright.instrument.scale_fingering.fingered import (
    Fingered,
    Unplayable,
    Wish,
    finger_scale,
    steps_on_one_string,
)
from lickwright.instrument.scale_fingering.ringing import HELD, ringing_path, step_cost
from lickwright.instrument.scale_fingering.rolls import picking_hand, rolls
from lickwright.instrument.scale_fingering.step import Step, pitches_between
from lickwright.instrument.tuning import parse_tuning
from lickwright.theory.scale import Scale, parse_scale

GUITAR = Guitar()
DROPPED = replace(GUITAR, tuning=parse_tuning("D2 A2 D3 G3 B3 E4"), capo=2)
TONICS = ("C", "G", "D", "A", "E", "B", "F#", "Db", "Ab", "Eb", "Bb", "F")


def wish(name: str, **said: object) -> Wish:
    scale = parse_scale(name)
    assert scale is not None
    return Wish(scale.semitones, scale.tonic.semitone, **said)


def fingered(name: str, guitar: Guitar = GUITAR, **said: object) -> Fingered:
    found = finger_scale(wish(name, **said), guitar)
    assert isinstance(found, Fingered), found
    return found


def sounding(steps: tuple[Step, ...], guitar: Guitar = GUITAR) -> list[int]:
    return [guitar.midi(step.string, step.fret) for step in steps]


def of_music21(scale: Scale, low: int, high: int) -> list[int]:
    """The notes that music21 gives a scale of ours between two MIDI numbers."""
    tonic = scale.tonic.display.replace("♭", "-").replace("♯", "#")
    made = {"major": m21.MajorScale, "minor": m21.MinorScale, "dorian": m21.DorianScale}[scale.kind](tonic)
    return [pitch.midi for pitch in made.getPitches("C1", "C8") if low <= pitch.midi <= high]


@pytest.mark.parametrize("kind", ["major", "minor", "dorian"])
@pytest.mark.parametrize("tonic", TONICS[::2])
@pytest.mark.parametrize(
    ("guitar", "ringing"),
    [
        pytest.param(GUITAR, False, id="plain"),
        pytest.param(GUITAR, True, id="ringing"),
        pytest.param(DROPPED, False, id="dropped"),
    ],
)
def test_the_notes_are_music21s(tonic: str, kind: str, ringing: bool, guitar: Guitar) -> None:
    """Fingered or not, a scale has the notes that music21 gives it, each once, in order."""
    scale = parse_scale(f"{tonic} {kind}")
    assert scale is not None
    steps = fingered(f"{tonic} {kind}", guitar, ringing=ringing).steps
    heard = sounding(steps, guitar)
    assert heard == of_music21(scale, heard[0], heard[-1])
    assert heard[0] % 12 == heard[-1] % 12 == scale.tonic.semitone
    slipped = [*heard[:3], heard[3] + 1, *heard[4:]]
    assert slipped != of_music21(scale, heard[0], heard[-1])  # a planted fret is seen


def test_a_scale_falls_where_its_second_end_is_lower() -> None:
    """``from 1:3 to 6:3`` is the same path from above."""
    up = fingered("G major", start=(6, 3), stop=(1, 3)).steps
    down = fingered("G major", start=(1, 3), stop=(6, 3)).steps
    assert sounding(down) == sounding(up)[::-1]
    assert (down[0].place, down[-1].place) == ((1, 3), (6, 3))


LUTHIER = 17.817
"""The rule of the luthiers: a fret takes the 17.817th part of what is left of the string."""


def fret_mm(fret: int, scale_length: float = 648.0) -> float:
    left = scale_length
    for _ in range(fret):
        left -= left / LUTHIER
    return scale_length - left


def too_wide(steps: tuple[Step, ...], together: int, reach: float) -> list[tuple[Step, ...]]:
    """Neighbours that cannot be held together: too far apart by the luthier's rule."""
    runs = [steps[k : k + together] for k in range(len(steps) - together + 1)]
    return [
        run
        for run in runs
        if (frets := [fret_mm(step.fret) for step in run if step.fret]) and max(frets) - min(frets) > reach
    ]


RINGING = ("C major", "G major", "D major", "A major", "E minor", "A minor", "A blues", "G major pentatonic")


@pytest.mark.parametrize("name", RINGING)
def test_what_rings_lies_under_one_hand(name: str) -> None:
    """Two neighbours share no string unless they must; what is held together is in reach."""
    found = fingered(name, ringing=True)
    assert found.way == "ringing"
    shared = steps_on_one_string(found.steps)
    for number in shared:
        places = [GUITAR.places(midi) for midi in sounding(found.steps)[number - 1 : number + 1]]
        pairs = [(one, other) for one, other in product(*places) if one[0] != other[0]]
        assert all(one[1] and other[1] for one, other in pairs) or not pairs
    assert not too_wide(found.steps, 2, WIDEST.possible + 1) or shared
    moved = tuple(replace(step, fret=step.fret + 9) if k % 2 else step for k, step in enumerate(found.steps))
    assert too_wide(moved, 2, WIDEST.possible + 1)  # a planted leap is seen


def cost_of(steps: tuple[Step, ...]) -> int | None:
    total = 0
    for number, step in enumerate(steps):
        price = step_cost(steps[max(0, number - HELD) : number], step, GUITAR)
        if price is None:
            return None
        total += price
    return total


def every_step(midi: int) -> list[Step]:
    return [
        Step(string, fret, finger)
        for string, fret in GUITAR.places(midi)
        for finger in (("1", "2", "3", "4") if fret else ("0",))
    ]


@pytest.mark.parametrize("name", ["G major", "E minor pentatonic"])
@pytest.mark.parametrize("start", [43, 57])
def test_the_path_is_the_cheapest_of_all(name: str, start: int) -> None:
    """Four notes have few ways enough to try them all."""
    scale = parse_scale(name)
    assert scale is not None
    midis = pitches_between(scale.semitones, start, start + 24)[:4]
    possible = {cost for way in product(*map(every_step, midis)) if (cost := cost_of(way)) is not None}
    steps = ringing_path(midis, GUITAR)
    assert steps is not None
    assert cost_of(steps) == min(possible)
    assert len(possible) > 1  # there was a choice


@pytest.mark.parametrize("position", [0, 2, 5, 7, 9])
@pytest.mark.parametrize("name", ["A major", "D major", "G minor pentatonic", "E dorian"])
def test_a_position_is_kept(name: str, position: int) -> None:
    """The hand covers four frets and one on either side, and plays the same finger on the same fret."""
    steps = fingered(name, position=position).steps
    index = max(position, 1)
    fretted = [step for step in steps if step.fret]
    assert all(index - 1 <= step.fret <= index + 4 for step in fretted)
    assert {step.finger for step in steps if not step.fret} <= {"0"}
    assert len({(step.fret, step.finger) for step in fretted}) == len({step.fret for step in fretted})
    assert [step.string for step in steps] == sorted((step.string for step in steps), reverse=True)


def test_so_many_notes_a_string() -> None:
    """Three on each string, but for the last."""
    steps = fingered("A major", start=(6, 5), stop=(1, 7), notes_a_string=3).steps
    counts = [sum(step.string == string for step in steps) for string in (6, 5, 4, 3, 2, 1)]
    assert counts[:5] == [3] * 5
    assert 1 <= counts[5] <= 3
    for one, other in pairwise(steps):
        if one.string == other.string:
            assert int(one.finger) < int(other.finger)


@pytest.mark.parametrize(
    ("said", "reason"),
    [
        pytest.param({"start": (6, 4), "stop": (1, 3)}, "outside", id="begins outside"),
        pytest.param({"start": (6, 3), "stop": (1, 4)}, "outside", id="ends outside"),
        pytest.param({"start": (6, 3), "stop": (6, 3)}, "short", id="one note"),
        pytest.param({"start": (6, 3), "stop": (1, 3), "position": 9}, "no way", id="another position"),
    ],
)
def test_what_no_hand_plays_is_said(said: dict[str, object], reason: str) -> None:
    """And why."""
    found = finger_scale(wish("G major", **said), GUITAR)
    assert isinstance(found, Unplayable)
    assert found.reason == reason


def test_rolls() -> None:
    """Toward the first string forward, toward the bass backward; two notes are no roll."""
    assert [(r.first, r.last, r.way) for r in rolls([6, 5, 6, 5, 4, 3, 4, 5, 5])] == [
        (2, 5, "forward"),
        (5, 7, "backward"),
    ]
    assert rolls([4, 4, 3, 4]) == ()
    assert rolls([]) == ()


@pytest.mark.parametrize("name", RINGING)
def test_no_finger_plucks_twice_running(name: str) -> None:
    """Pick, middle and ring finger take turns; the higher string mostly has the higher finger."""
    strings = [step.string for step in fingered(name, ringing=True).steps]
    hand = picking_hand(strings)
    assert len(hand) == len(strings)
    assert all(one != other for one, other in pairwise(hand))
    rank = {"P": 0, "m": 1, "a": 2}
    agreeing = sum(
        (rank[after] > rank[before]) == (low > high)
        for (before, after), (low, high) in zip(pairwise(hand), pairwise(strings), strict=True)
        if low != high
    )
    assert agreeing * 3 >= 2 * (len(hand) - 1)
