"""Rows of the second witness that slip as a whole: one cause behind many notes that disagree.

Two are known: an entry is left out and another put in, so that the entries between them stand a sound
too early or too late; and every note of a bar lies the same interval off what the row says of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from lickwright.checks.witnesses import top_pitch
from lickwright.model.music import Piece, Sound, Tone
from lickwright.theory.chord import Chord, ChordSymbol
from lickwright.theory.interval import parse_degree
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass

Row = Literal["names", "degrees"]
Bar = tuple[int, bool]
"""Bar number, and whether it is the lower voice."""

FEWEST = 3
"""Notes that disagree before the row is accused and not each note."""


@dataclass(frozen=True, slots=True)
class Slip:
    """What has slipped in one bar of one voice.

    Attributes:
        row: Which.
        sounds: Those whose entries stand elsewhere; the whole bar where it is moved.
        by: How many sounds an entry stands early (1) or late (-1); 0 where the bar is moved.
        interval: Half steps that the bar sounds above what is said, 0 to 11; 0 where the row is shifted.
    """

    row: Row
    sounds: tuple[Sound, ...]
    by: int
    interval: int


def find_slips(piece: Piece, row: Row) -> Mapping[Bar, Slip]:
    """Return the bars in which a row has slipped; none for a chorus."""
    found: dict[Bar, Slip] = {}
    if piece.kind == "chorus":
        return found
    key = piece.music.key
    for bar in piece.music.bars:
        for line in bar.lines:
            spoken = [
                (sound, tone, bar.chord_at(sound.onset))
                for sound in line.sounds
                for tone in sound.tones
                if (tone.name if row == "names" else tone.degree) is not None and tone.path
            ]
            if len(spoken) < FEWEST:
                continue
            said = [say_class(tone, row, chord, key) for _, tone, chord in spoken]
            heard = [{pitch % 12 for pitch in top_pitch(tone)} for _, tone, _ in spoken]
            apart = [n for n, (a, b) in enumerate(zip(said, heard, strict=True)) if a not in b]
            if len(apart) >= FEWEST:
                slip = _slip(row, [sound for sound, _, _ in spoken], said, heard, apart)
                if slip is not None:
                    found[bar.number, line is bar.lower] = slip
    return found


def say_class(tone: Tone, row: Row, chord: ChordSymbol, key: Key) -> int:
    """Return the pitch class a row gives a tone; -1 for none that reads."""
    if row == "names":
        name = PitchClass.parse(tone.name or "")
        return -1 if name is None else name.semitone
    degree = parse_degree(tone.degree or "")
    root = chord.root if isinstance(chord, Chord) else key.tonic
    return -1 if degree is None else (root.semitone + degree.semitones) % 12


def _slip(
    row: Row, sounds: list[Sound], said: list[int], heard: list[set[int]], apart: list[int]
) -> Slip | None:
    if len(apart) == len(said) and all(len(pitches) == 1 for pitches in heard) and -1 not in said:
        moved = {(min(b) - a) % 12 for a, b in zip(said, heard, strict=True)}
        if len(moved) == 1:
            return Slip(row, tuple(dict.fromkeys(sounds)), 0, moved.pop())
    first, last = apart[0], apart[-1]
    for by, inside in ((1, range(first, last)), (-1, range(first + 1, last + 1))):
        if all(said[n] in heard[n + by] for n in inside):
            return Slip(row, tuple(dict.fromkeys(sounds[first : last + 1])), by, 0)
    return None
