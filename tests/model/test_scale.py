"""A scale block becomes a piece like a lick: fingered, in eighths, ringing where that is asked for."""

from __future__ import annotations

from fractions import Fraction

import pytest

from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Course, Settings, Unit
from lickwright.model.fields import Provenance, Tempo
from lickwright.model.music import Music, Piece
from lickwright.model.timeline import resolve
from lickwright.reading.lesson import read_lesson
from lickwright.text import Source
from lickwright.theory.key import parse_key

SETTINGS = Settings(parse_key("A major"), "shuffle", Tempo(120), Guitar(), Provenance("own"))


def scale(fields: str) -> tuple[Piece | None, list[str]]:
    """Read and resolve one scale block."""
    lesson, found = read_lesson(Source("lessons/one.md", f"# One\n\n```scale one\n{fields}\n```\n"), "one")
    book, faults = resolve(Course("Test", "us", SETTINGS, (Unit("Unit", (lesson,)),)))
    return book.piece("one"), [f"{finding.rule}: {finding.message}" for finding in (*found, *faults)]


def written(music: Music) -> str:
    return " ".join(
        f"{sound.tones[0].string}:{sound.tones[0].fret}" for bar in music.bars for sound in bar.upper.sounds
    )


def test_a_plain_scale() -> None:
    """In first position, eight to a bar, the last note held to the bar's end."""
    piece, wrong = scale("scale: G major\nfrom: 6:3 to 3:0")
    assert wrong == []
    assert piece is not None
    assert (piece.kind, piece.title, str(piece.music.key), piece.feel) == (
        "scale",
        "G major",
        "G major",
        "straight",
    )
    assert written(piece.music) == "6:3 5:0 5:2 5:3 4:0 4:2 4:4 3:0"
    sounds = piece.music.bars[0].upper.sounds
    assert [sound.onset for sound in sounds] == [Fraction(k, 2) for k in range(8)]
    assert [sound.tones[0].finger for sound in sounds] == ["3", "0", "2", "3", "0", "2", "4", "0"]
    assert [str(bar.chords[0].symbol) for bar in piece.music.bars] == ["G"]
    longer, _ = scale("scale: G major\nfrom: 6:3 to 3:2")
    assert longer is not None
    assert [len(bar.upper.sounds) for bar in longer.music.bars] == [8, 1]
    assert longer.music.bars[1].upper.sounds[0].duration == 4


def test_a_ringing_scale() -> None:
    """All of it lies in one let-ring bracket, and the picking hand is told."""
    piece, wrong = scale("scale: G major\nfrom: 6:3 to 1:3\nopen strings: wherever diatonic")
    assert wrong == []
    assert piece is not None
    sounds = [sound for bar in piece.music.bars for sound in bar.upper.sounds]
    assert {sound.ring for sound in sounds} == {1}
    assert sum(not sound.tones[0].fret for sound in sounds) >= len(sounds) / 4
    assert {sound.tones[0].hand or sound.stroke for sound in sounds} <= {"P", "m", "a"}


@pytest.mark.parametrize(
    ("name", "key", "chord"),
    [
        ("E minor", "E minor", "Em"),
        ("D dorian", "D dorian", "Dm"),
        ("B locrian", "B locrian", "Bdim"),
        ("A mixolydian", "A mixolydian", "A"),
        ("G major pentatonic", "G major", "G"),
        ("G minor pentatonic", "G minor", "Gm"),
        ("A blues", "A minor", "Am"),
        ("A major blues", "A major", "A"),
    ],
)
def test_the_key_and_the_chord(name: str, key: str, chord: str) -> None:
    """A mode has its own signature, other scales that of the key on their tonic; over the tonic's triad."""
    piece, wrong = scale(f"scale: {name}")
    assert wrong == []
    assert piece is not None
    assert (str(piece.music.key), str(piece.music.bars[0].chords[0].symbol)) == (key, chord)


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ("scale: G major\nfrom: 6:4 to 1:3", "hands/scale: string 6, fret 4 is no note of G major"),
        ("scale: G major\nfrom: 6:3 to 6:3", "hands/scale: G major has no two notes there"),
        ("scale: G major\nfrom: 6:3 to 1:3\nposition: 9", "hands/scale: no hand plays G major so"),
    ],
)
def test_what_cannot_be_fingered_is_told(fields: str, told: str) -> None:
    """Once, and no piece is made of it."""
    piece, wrong = scale(fields)
    assert (piece, wrong) == (None, [told])
