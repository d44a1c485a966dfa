"""Degrees and moves as they are said: ``the flat seventh``, ``a half step up``.

A degree is named for the chord it stands over; over N.C. for the key. The third of a minor chord is
its third, and the flat third of a major chord is that; where the major third stands near it over a
minor chord they are told apart. Spelled as a sharp ninth, on its way up to the third, it is the flat third
still, unless the chord has a sharp ninth.
"""

from __future__ import annotations

import re

from lickwright.theory.chord import Chord, ChordSymbol

_ORDINALS = {
    "1": "root",
    "2": "ninth",
    "3": "third",
    "4": "fourth",
    "5": "fifth",
    "6": "sixth",
    "7": "seventh",
}
_SIGNS = {"": "", "b": "flat ", "#": "sharp ", "bb": "double flat ", "##": "double sharp "}
_OWN = {"7": "major seventh", "bb7": "diminished seventh", "b2": "flat ninth", "#1": "raised root"}
_SIZES = (
    "unison", "half step", "whole step", "third", "third", "fourth", "tritone", "fifth", "sixth", "sixth",
    "seventh", "seventh", "octave",
)  # fmt: skip
_TIMES = {2: "twice", 3: "three times", 4: "four times", 5: "five times", 6: "six times"}
_DEGREE = re.compile(r"(bb|##|b|#)?([1-7])")


def name_degree(degree: str, chord: ChordSymbol, *, both_thirds: bool = False) -> str:
    """Return a degree in words, without its article: ``flat seventh``.

    ``both_thirds``: the major and the minor third stand near each other.
    """
    if isinstance(chord, Chord):
        tones = chord.quality.tones
        if 3 in tones and 4 not in tones:
            if degree == "b3":
                return "minor third" if both_thirds else "third"
            if degree in ("3", "b4"):
                return "major third"
        if degree == "#2" and chord.has_major_third and 3 not in tones:
            return "flat third"  # spelled by where it goes, and heard as the blue third that it is
        if degree == "2" and 2 in tones and not {3, 4} & tones:
            return "second"
    found = _DEGREE.fullmatch(degree)
    if degree in _OWN or found is None:
        return _OWN.get(degree, degree)
    return _SIGNS[found[1] or ""] + _ORDINALS[found[2]]


def name_of(pitch: int, chord: Chord) -> str:
    """Return what a pitch (MIDI number) is to a chord, in words."""
    return name_degree(chord.degree_of(pitch), chord)


def list_words(words: list[str]) -> str:
    """Return words as a list: ``root, third and fifth``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def times(count: int) -> str:
    """Return how often: ``twice``, ``three times``."""
    return _TIMES.get(count, f"{count} times")


def name_step(half_steps: int) -> str:
    """Return the size of a move: ``half step``, ``whole step``, ``third``."""
    size = abs(half_steps)
    return _SIZES[size] if size < len(_SIZES) else "leap"
