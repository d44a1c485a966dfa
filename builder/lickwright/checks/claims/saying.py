"""Notes, places and numbers as a finding about prose says them."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from lickwright.checks.claims.pointed import Heard, Pointed
from lickwright.model.music import Tone
from lickwright.terms.numbers import ORDINALS
from lickwright.theory.pitch import PitchClass

MOST = 8
"""Notes that are listed one by one."""


def name_tone(notes: Pointed, heard: Heard, tone: Tone) -> tuple[PitchClass, ...]:
    """Return what the staff calls a tone: a name for each pitch it comes to."""
    names = notes.subject.spelled.get((heard.sound.address, heard.sound.tones.index(tone) + 1), ())
    return tuple(pitch.name for pitch in names)


def say_sound(notes: Pointed, heard: Heard) -> str:
    """Return the notes of a sound: ``C sharp``, ``A and C sharp``, ``D bent to E``, ``a dead note``."""
    said = []
    for tone in heard.tones:
        names = [name.spoken for name in name_tone(notes, heard, tone)]
        said.append(" bent to ".join(dict.fromkeys(names)))
    return " and ".join(said) or "a dead note"


def say_notes(notes: Pointed) -> str:
    """Return the notes of a link in order, the first of many."""
    if notes.single:
        return say_sound(notes, notes.heard[0])
    said = [say_sound(notes, heard) for heard in notes.heard[:MOST]]
    return ", ".join(said) + (" …" if len(notes.heard) > MOST else "")


def say_place(notes: Pointed) -> str:
    """Return where a link points: ``2.3``, ``1.1-1.4``, ``bar 2``, ``the lick``."""
    at = notes.at
    if at is None:
        return f"“{notes.subject.piece.name}”"
    if at.whole_bars:
        return f"bar {at}" if at.first == at.last else f"bars {at}"
    return str(at)


def say_ordinal(number: int) -> str:
    """Return ``fourth``; digits beyond the table."""
    return ORDINALS[number] if 0 < number < len(ORDINALS) else f"{number}th"


def say_list(words: list[str]) -> str:
    """Return ``a``, ``a and b``, ``a, b and c``."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def say_midi(pitch: Fraction, notes: Pointed) -> str:
    """Return a pitch by the name the key gives it."""
    number = floor(pitch)
    name = notes.subject.piece.music.key.spelling(number)
    if name is None:
        flats = notes.subject.piece.music.key.signature < 0
        table = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B") if flats else (
            "C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")  # fmt: skip
        name = PitchClass.parse(table[number % 12])
    assert name is not None  # the table holds every half step
    return name.spoken
