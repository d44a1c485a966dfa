"""Notes and lengths in the words of a guitarist."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from lickwright.model.music import Tone
from lickwright.model.slots import JoinKind
from lickwright.theory.chord import Chord, ChordSymbol
from lickwright.theory.key import Key
from lickwright.theory.pitch import PitchClass
from lickwright.theory.spelling import spell

SLURS = {JoinKind.HAMMER: "hammer-on", JoinKind.PULL: "pull-off"}
"""Slurs that need another finger, by name."""
_NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight"}
_DEGREES = {
    "1": "root", "b2": "flat ninth", "2": "ninth", "#2": "sharp ninth", "b3": "minor third", "3": "third",
    "4": "fourth", "#4": "sharp eleventh", "b5": "flat fifth", "5": "fifth", "#5": "sharp fifth",
    "b6": "flat thirteenth", "6": "sixth", "bb7": "diminished seventh", "b7": "flat seventh",
    "7": "major seventh",
}  # fmt: skip


def note_name(midi: int, key: Key, chord: ChordSymbol) -> str:
    """Return a note's name as it is said, plain letters with ``natural``: ``C natural``, ``F sharp``."""
    return say_name(spell(midi, key, chord, None, None).name)


def say_name(name: PitchClass) -> str:
    """Return a name as it is said, plain letters with ``natural``."""
    return name.spoken if " " in name.spoken else f"{name.spoken} natural"


def say_pitch(name: str, sounding: Sequence[int]) -> str:
    """Return what sounds, by the name of its lower half step: of two a quarter tone above it."""
    return f"a quarter tone above {name}" if len(sounding) > 1 else name


def note_text(tone: Tone) -> str:
    """Return a note as an author types it; what a variation takes over stands nowhere in its own text."""
    typed = tone.span.text
    if typed.startswith(f"{tone.string}:"):
        return typed
    return f"{tone.string}:{'x' if tone.fret is None else tone.fret}"


def degree_name(degree: str) -> str:
    """Return a degree of a chord in words: ``third``, ``flat seventh``."""
    return _DEGREES.get(degree, degree)


def degree_of(midi: int, chord: ChordSymbol, key: Key) -> str:
    """Return the label of a note's degree: over the chord's root, over N.C. over the key's tonic."""
    return chord.degree_of(midi) if isinstance(chord, Chord) else key.degree_of(midi)


def held_for(quarters: Fraction, beat: Fraction) -> str:
    """Return how long a note sounds, in beats: ``held two beats``, ``half a beat``."""
    beats = quarters / beat
    if beats == Fraction(1, 2):
        return "half a beat"
    if beats < 1:
        return "less than a beat"
    if beats == 1:
        return "one beat"
    if beats.denominator == 1:
        return f"held {_NUMBERS.get(int(beats), str(int(beats)))} beats"
    if beats == Fraction(3, 2):
        return "held one beat and a half"
    return f"held {float(beats):.3g} beats"


def count_word(number: int) -> str:
    """Return a small number as a word."""
    return _NUMBERS.get(number, str(number))
