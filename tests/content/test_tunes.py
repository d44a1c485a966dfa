"""The demo course's fiddle tunes against an independent reading of the same tunes.

Witness: music21's own parser on the encodings of Ryan's Mammoth Collection (Boston, 1883) that
are installed with it. The course's settings sound an octave below the fiddle.
"""

from __future__ import annotations

import shutil
from collections import defaultdict
from fractions import Fraction
from itertools import chain
from pathlib import Path

import pytest

from lickwright.model.music import Music
from lickwright.model.timeline import play, play_bars, resolve
from lickwright.reading.course import read_course

CONTENT = Path(__file__).parents[2] / "content"
OCTAVE = 12
TUNES = {
    "devils-dream": "DevilsDreamReel",
    "soldiers-joy": "SoldiersJoy",
    "fishers-hornpipe": "FishersHornpipe",
}
"""Lick name to the tune's name in music21's corpus."""

Event = tuple[Fraction, Fraction, Fraction]
"""Onset in its bar and length, in quarters, and MIDI number."""


def by_bar(events: list[Event], pickup: Fraction, length: Fraction) -> dict[int, list[Event]]:
    """Sort events (onsets from the first note) into bars as played; the pickup is bar 0."""
    bars: dict[int, list[Event]] = defaultdict(list)
    for onset, duration, pitch in events:
        number, place = divmod(onset - pickup + length, length)
        bars[int(number)].append((place, duration, pitch))
    return dict(bars)


def ours(music: Music) -> dict[int, list[Event]]:
    """The lick as our timeline plays it, repeats and endings unfolded, at fiddle pitch."""
    events = [
        (sound.start, sound.end - sound.start, tone.path[0] + OCTAVE)
        for sound in play(music)
        for tone in sound.sound.tones
    ]
    first, second = play_bars(music)[:2]
    return by_bar(events, first.end, second.end - second.start)


def printed(tune: str) -> dict[int, list[Event]]:
    """The tune as music21 reads it, each part with its pickup played twice."""
    from music21 import bar, corpus, stream

    measures = list(corpus.parse(f"ryansMammoth/{tune}").parts[0].getElementsByClass(stream.Measure))
    parts: list[list[stream.Measure]] = [[]]
    for measure in measures:
        parts[-1].append(measure)
        sign = measure.rightBarline
        if isinstance(sign, bar.Repeat) and sign.direction == "end":
            parts.append([])
    assert parts.pop() == [], "the tune ends with a repeat sign"
    events: list[Event] = []
    start = Fraction(0)
    for measure in chain.from_iterable(part * 2 for part in parts):
        events += (
            (start + Fraction(n.offset), Fraction(n.quarterLength), Fraction(n.pitch.midi))
            for n in measure.notes
        )
        start += Fraction(measure.duration.quarterLength)
    pickup = Fraction(measures[0].duration.quarterLength)
    return by_bar(events, pickup, Fraction(measures[0].barDuration.quarterLength))


def music_of(lick: str, folder: Path = CONTENT) -> Music:
    """Read a course and return one lick's music."""
    course, _ = read_course(folder)
    assert course is not None
    book, _ = resolve(course)
    piece = book.piece(lick)
    assert piece is not None, f"no lick {lick}"
    return piece.music


def differing(lick: str, folder: Path = CONTENT) -> list[int]:
    """Bars, as played, in which the lick and the printed tune do not agree."""
    left, right = ours(music_of(lick, folder)), printed(TUNES[lick])
    return sorted(bar for bar in left.keys() | right.keys() if left.get(bar) != right.get(bar))


@pytest.mark.parametrize("lick", TUNES)
def test_the_tune_is_the_printed_one(lick: str) -> None:
    """Bar by bar, as played, pitches, onsets and lengths are those of the printed tune."""
    assert differing(lick) == []


@pytest.mark.parametrize("lick", TUNES)
def test_the_whole_tune_is_there(lick: str) -> None:
    """Two parts of eight bars, each played twice, and the pickup."""
    assert sorted(ours(music_of(lick))) == list(range(33))


@pytest.mark.parametrize(
    ("lesson", "lick", "right", "planted", "bars"),
    [
        # Open B for D: inside the key, so that harmony alone would never see it.
        (
            "devils-dream",
            "devils-dream",
            "D A | 2:3 1:2 1:0 2:3  2:2",
            "D A | 2:3 1:2 1:0 2:0  2:2",
            [7, 15, 23, 31],
        ),
        ("devils-dream", "devils-dream", "1. E7 A | 4:2 -", "1. E7 A | 4:2 4:2", [24]),
        ("devils-dream", "soldiers-joy", "2:3 - 1:0 h 1:3", "2:3 - 1:0 h 1:2", [6, 14]),
        # E for F at the end of the second ending; B flat for D in the second part.
        ("fishers-hornpipe", "fishers-hornpipe", "2:6 - 2:5 h 2:6", "2:5 - 2:5 h 2:6", [16]),
        ("fishers-hornpipe", "fishers-hornpipe", "Bb | 2:3 3:3 4:3", "Bb | 3:3 3:3 4:3", [21, 29]),
    ],
)
def test_a_planted_fault_is_caught(
    tmp_path: Path, lesson: str, lick: str, right: str, planted: str, bars: list[int]
) -> None:
    """A wrong fret or a wrong length is found in exactly the bars where it is played."""
    folder = shutil.copytree(CONTENT, tmp_path / "course")
    page = folder / "lessons" / f"{lesson}.md"
    text = page.read_text(encoding="utf-8")
    assert right in text
    page.write_text(text.replace(right, planted), encoding="utf-8")
    assert differing(lick, folder) == bars


@pytest.mark.parametrize("lick", TUNES)
def test_the_source_is_named(lick: str) -> None:
    """A tune that is not ours says where it is printed."""
    course, _ = read_course(CONTENT)
    assert course is not None
    source = course.licks[lick].source
    assert source is not None
    assert source.kind == "traditional"
    assert "1883" in source.detail
